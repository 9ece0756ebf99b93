import { createRoot } from "react-dom/client";
import "./styles/fonts.css";
import "./styles/tokens.css";
// In this order: what stands later overrides what stands before.
import "./styles/base.css";
import "./styles/window.css";
import "./styles/bar.css";
import "./styles/controls.css";
import "./styles/run.css";
import "./styles/notices.css";
import "./styles/bands.css";
import "./styles/tables.css";
import "./styles/compared.css";
import "./styles/course.css";
import "./styles/side.css";
import "./styles/dialogs.css";
import "./styles/narrow.css";
import "./styles/motion.css";
import "./drawing/drawing.css";
import "./styles/artwork.css";
import { connect } from "./host/connect.ts";
import { keepFile } from "./host/keepFile.ts";
import { draftsIn } from "./state/drafts.ts";
import { keepView, viewFrom } from "./state/preferences.ts";
import { createSheet, type Sheet } from "./state/sheet.ts";
import { App } from "./views/App.tsx";
import { NoKey } from "./views/NoKey.tsx";

const place = document.getElementById("root");
if (place === null) throw new Error("The page has no place for the sheet.");

const root = createRoot(place);
let sheet: Sheet | null = null;
const connection = connect(window, (standing) => sheet?.commands.connectionChanged(standing));
if (connection === null) root.render(<NoKey />);
else {
  sheet = createSheet({
    host: connection.host,
    drafts: draftsIn(window.localStorage),
    view: viewFrom(window.localStorage),
    keepView: (view) => keepView(window.localStorage, view),
    now: () => Date.now(),
    newId: () => crypto.randomUUID(),
    keepFile,
  });
  root.render(<App sheet={sheet} />);
  void sheet.commands.start();
}
