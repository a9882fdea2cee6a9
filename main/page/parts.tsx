import { Fragment, type ReactNode } from "react";

/** A length or value as a drawing or an axis writes it: two decimals at most. */
export const fixed = (value: number): string => String(Math.round(value * 100) / 100);

/** `1:30` for an axis that says h:mm. */
export function hourMinute(seconds: number): string {
  const minutes = Math.round(seconds / 60);
  return `${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, "0")}`;
}

/** Width of every chart: one unit is a CSS pixel on a phone of 390, less the margins, so text of 12 stays readable. */
export const CHART_WIDTH = 400;

/** An inline drawing with its title and its words for whom it is read to; `id` is unique on the page. */
export function Drawing(props: {
  readonly id: string;
  readonly title: string;
  readonly alt: string;
  readonly height: number;
  readonly children: ReactNode;
}): ReactNode {
  const { id, title, alt, height, children } = props;
  return (
    <svg
      xmlns="http://www.w3.org/2000/svg"
      viewBox={`0 0 ${CHART_WIDTH} ${height}`}
      role="img"
      aria-labelledby={`${id}-title ${id}-desc`}
    >
      <title id={`${id}-title`}>{title}</title>
      <desc id={`${id}-desc`}>{alt}</desc>
      {children}
    </svg>
  );
}

/** The head of a page: what it is and, beneath it, of whom and of when; names may be written from the right. */
export function PageHead({ title, who }: { readonly title: string; readonly who: readonly string[] }): ReactNode {
  return (
    <header>
      <h1>{title}</h1>
      {who.length > 0 && (
        <p className="quiet">
          {who.map((one, at) => (
            <Fragment key={at}>
              {at > 0 && ", "}
              <bdi>{one}</bdi>
            </Fragment>
          ))}
        </p>
      )}
    </header>
  );
}

export function Section({ title, children }: { readonly title: string; readonly children: ReactNode }): ReactNode {
  return (
    <section>
      <h2>{title}</h2>
      {children}
    </section>
  );
}

export function Bullets({ items }: { readonly items: readonly string[] }): ReactNode {
  return (
    <ul>
      {items.map((item, index) => (
        <li key={index}>{item}</li>
      ))}
    </ul>
  );
}

/** Rows of a name and what belongs to it. */
export function NamedRows({ rows }: { readonly rows: readonly (readonly [name: string, value: string])[] }): ReactNode {
  return (
    <table>
      <tbody>
        {rows.map(([name, value], index) => (
          <tr key={index}>
            <th scope="row">{name}</th>
            <td>{value}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/**
 * A table with a head; with `named` the first cell of a row is its heading. It scrolls sideways on a phone, by key too,
 * and is told by its label.
 */
export function WideTable(props: {
  readonly label: string;
  readonly className: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly string[])[];
  readonly named: boolean;
}): ReactNode {
  const { label, className, columns, rows, named } = props;
  return (
    <section className={className} tabIndex={0} aria-label={label}>
      <table>
        <thead>
          <tr>
            {columns.map((column, index) => (
              <th scope="col" key={index}>
                {column}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row, index) => (
            <tr key={index}>
              {row.map((cell, at) =>
                named && at === 0 ? (
                  <th scope="row" key={at}>
                    {cell}
                  </th>
                ) : (
                  <td key={at}>{cell}</td>
                ),
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
