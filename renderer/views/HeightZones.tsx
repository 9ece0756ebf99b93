import { Button } from "../controls/Button.tsx";
import { FactorField } from "../controls/FactorField.tsx";
import { LengthField } from "../controls/jobFields.tsx";
import { useCommands, useSheet } from "../state/context.ts";
import { listIn } from "../state/entries.ts";

/** Starting values for one zone, eyes of people who stand; our own choice, no source. */
const firstZone = { in: { from: 48, to: 72, weight: 2 }, mm: { from: 1200, to: 1800, weight: 2 } } as const;

/** How much a seam counts by its height over the ground: a small table of stretches. */
export function HeightZones() {
  const job = useSheet((state) => state.document?.job ?? null);
  const { edit } = useCommands();
  const rules = job?.rules as Record<string, unknown> | undefined;
  const zones = listIn(rules?.heightZones);
  const unit = job?.units === "mm" ? "mm" : "in";
  const add = (): void =>
    edit("Add a height zone", (draft) => {
      const here = draft.rules as Record<string, unknown>;
      const top = Math.max(...zones.map(({ to }) => Number(to) || 0), 0);
      const { from, to, weight } = firstZone[unit];
      const next = zones.length === 0 ? { from, to, weight } : { from: top, to: top + to - from, weight: 1 };
      here.heightZones = [...listIn(here.heightZones), next];
    });
  const remove = (place: number): void =>
    edit(`Remove height zone ${place + 1}`, (draft) => {
      const here = draft.rules as Record<string, unknown>;
      const left = listIn(here.heightZones).filter((_, step) => step !== place);
      if (left.length === 0) delete here.heightZones;
      else here.heightZones = left;
    });
  return (
    <div className="height-zones" data-path="rules.heightZones" tabIndex={-1}>
      {zones.length === 0 ? (
        <p className="aside">A seam counts the same at every height.</p>
      ) : (
        <table className="table table-fields">
          <caption className="only-heard">How much a seam counts by its height over the ground</caption>
          <thead>
            <tr>
              <th scope="col">From</th>
              <th scope="col">To</th>
              <th scope="col">Counts</th>
              <th scope="col">
                <span className="only-heard">Remove</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {zones.map((_, place) => {
              const at = `rules.heightZones[${place}]`;
              const zone = `height zone ${place + 1}`;
              return (
                // biome-ignore lint/suspicious/noArrayIndexKey: a zone is its place in the list, as the first that fits counts
                <tr key={place} data-path={at} tabIndex={-1}>
                  <td>
                    <LengthField
                      signed
                      hiddenLabel
                      path={`${at}.from`}
                      label={`From, ${zone}`}
                      step={`Foot of ${zone}`}
                    />
                  </td>
                  <td>
                    <LengthField signed hiddenLabel path={`${at}.to`} label={`To, ${zone}`} step={`Head of ${zone}`} />
                  </td>
                  <td>
                    <FactorField
                      hiddenLabel
                      path={`${at}.weight`}
                      label={`Counts, ${zone}`}
                      step={`Weight of ${zone}`}
                    />
                  </td>
                  <td>
                    <Button weight="bare" aria-label={`Remove ${zone}`} onClick={() => remove(place)}>
                      Remove
                    </Button>
                  </td>
                </tr>
              );
            })}
          </tbody>
        </table>
      )}
      <Button onClick={add}>Add a height zone</Button>
    </div>
  );
}
