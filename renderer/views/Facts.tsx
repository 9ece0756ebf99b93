import type { ReactNode } from "react";

/** Ids among figures: "part-1/2" is no half. */
export const Names = ({ children }: { readonly children: string }) => <span className="names">{children}</span>;

/** Numbers with their names, one to a line. A fact without a value is left out. */
export function Facts({ facts }: { readonly facts: readonly (readonly [name: string, value: ReactNode | null])[] }) {
  return (
    <dl className="facts">
      {facts.map(([name, value]) =>
        value === null ? null : (
          <div key={name}>
            <dt>{name}</dt>
            <dd className="figures">{value}</dd>
          </div>
        ),
      )}
    </dl>
  );
}
