import { useEffect } from "react";
import { Button } from "../controls/Button.tsx";
import { useCommands, useSheet } from "../state/context.ts";

const plainFor = 6000;

/** What the last action did, a connection that is gone, unsaved work of an earlier window. */
export function Notices() {
  const notice = useSheet((state) => state.notice);
  const connection = useSheet((state) => state.connection);
  const offered = useSheet((state) => state.offered);
  const { takeNotice, go, putDraftAway } = useCommands();
  useEffect(() => {
    if (notice?.tone !== "plain") return;
    const timer = setTimeout(takeNotice, plainFor);
    return () => clearTimeout(timer);
  }, [notice, takeNotice]);
  return (
    <>
      {connection === "lost" ? (
        <div className="strip strip-attention" role="alert">
          <p>
            <strong>The connection to the program is gone.</strong> Your work is kept in this window and in the browser.
            Nothing can be planned or saved until the program runs again; this window looks for it every few seconds.
          </p>
        </div>
      ) : null}
      {offered.map((draft) => (
        <div className="strip" role="status" key={draft.id}>
          <p>
            <strong>Unsaved work on {draft.name}</strong> was kept on{" "}
            {new Date(draft.at).toLocaleString("en-GB", { dateStyle: "medium", timeStyle: "short" })}.
          </p>
          <Button onClick={() => void go({ to: "draft", id: draft.id })}>Go on with it</Button>
          <Button weight="bare" onClick={() => putDraftAway(draft.id)}>
            Discard it
          </Button>
        </div>
      ))}
      <div className="notice-place" role="status">
        {notice === null ? null : (
          <div className={notice.tone === "attention" ? "notice notice-attention" : "notice"}>
            <p>{notice.says}</p>
            <Button weight="bare" onClick={takeNotice} aria-label="Close the notice">
              Close
            </Button>
          </div>
        )}
      </div>
    </>
  );
}
