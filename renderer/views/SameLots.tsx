import { Button } from "../controls/Button.tsx";
import { useFaults } from "../controls/Field.tsx";
import { useCommands, useSheet } from "../state/context.ts";
import { listIn, titleOf } from "../state/entries.ts";
import { freeId } from "../state/newJob.ts";

/** Elevations whose panels come from one lot beside what the rule asks: a bus and its trailer, two walls of a corner. */
export function SameLots() {
  const job = useSheet((state) => state.document?.job ?? null);
  const { edit } = useCommands();
  const elevations = listIn(job?.elevations);
  const groups = listIn(job?.sameLot);
  const add = (): void =>
    edit("One lot for two elevations", (draft) => {
      const ids = groups.map(({ id }) => String(id));
      const two = elevations.slice(0, 2).map(({ id }) => String(id));
      draft.sameLot = [...listIn(draft.sameLot), { id: freeId("lot", ids), elevations: two }];
    });
  const remove = (place: number): void =>
    edit("Lots as the rule asks", (draft) => {
      const left = listIn(draft.sameLot).filter((_, step) => step !== place);
      if (left.length === 0) delete draft.sameLot;
      else draft.sameLot = left;
    });
  return (
    <div className="same-lots" data-path="sameLot" tabIndex={-1}>
      <h4>One lot for several elevations</h4>
      {groups.length === 0 ? <p className="aside">None beside the rule ‘One lot for’.</p> : null}
      {groups.map((group, place) => (
        <SameLot
          key={String(group.id ?? place)}
          place={place}
          members={Array.isArray(group.elevations) ? group.elevations.map(String) : []}
          onRemove={() => remove(place)}
        />
      ))}
      <Button onClick={add} disabled={elevations.length < 2}>
        Ask for one lot
      </Button>
    </div>
  );
}

interface SameLotProps {
  readonly place: number;
  readonly members: readonly string[];
  readonly onRemove: () => void;
}

function SameLot({ place, members, onRemove }: SameLotProps) {
  const job = useSheet((state) => state.document?.job ?? null);
  const { edit } = useCommands();
  const faults = useFaults(`sameLot[${place}]`);
  const choose = (id: string, isIn: boolean): void =>
    edit("Elevations of one lot", (draft) => {
      const group = listIn(draft.sameLot)[place];
      if (group !== undefined) group.elevations = isIn ? [...members, id] : members.filter((one) => one !== id);
    });
  return (
    <fieldset className="stock" data-path={`sameLot[${place}]`} tabIndex={-1}>
      <legend>Together {place + 1}</legend>
      {listIn(job?.elevations).map((elevation, step) => {
        const id = String(elevation.id);
        const isIn = members.includes(id);
        return (
          <label className="check" key={id}>
            <input
              type="checkbox"
              checked={isIn}
              disabled={isIn && members.length <= 2}
              onChange={(event) => choose(id, event.target.checked)}
            />
            <span>{titleOf(elevation, step)}</span>
          </label>
        );
      })}
      <p className="field-hint">Two at least. Copy by copy: the first of each together, the second, and so on.</p>
      {faults.map((fault) => (
        <p className="field-said" key={fault}>
          {fault}
        </p>
      ))}
      <Button weight="bare" onClick={onRemove}>
        Remove together {place + 1}
      </Button>
    </fieldset>
  );
}
