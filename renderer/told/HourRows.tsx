import type { UnitSystem } from "../../main/contract/languageAndUnits.ts";
import type { HourFigures } from "../../main/contract/reading.ts";
import { hourTable } from "../../overlay/words/reading/hourTable.ts";
import { told as words } from "../words/told.ts";

interface Props {
  readonly hours: readonly HourFigures[];
  readonly units: UnitSystem;
}

/** The main part by the hour; nothing where it has one hour only. */
export function HourRows({ hours, units }: Props) {
  const { columns, rows } = hourTable(hours, units);
  if (rows.length === 0) return null;
  return (
    <section className="part">
      <header>
        <h3>{words.byTheHour}</h3>
      </header>
      <div className="told-hours" tabIndex={0} role="region" aria-label={words.byTheHour}>
        <table>
          <thead>
            <tr>
              {columns.map((column) => (
                <th scope="col" key={column}>
                  {column}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <tr key={row[0]}>
                {row.map((cell, index) => (
                  <td key={columns[index]}>{cell}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </section>
  );
}
