import type { DebriefView } from "../../main/contract/debriefApi.ts";
import type { ToldReading as Told } from "../../main/contract/toldReading.ts";
import type { WindowColumns } from "../../main/contract/columnBytes.ts";
import { keepUnits } from "../../overlay/words/keepUnits.ts";
import { told as words } from "../words/told.ts";
import { HeartChart } from "./HeartChart.tsx";
import { HourRows } from "./HourRows.tsx";
import { SharesBar } from "./SharesBar.tsx";
import "./told.css";

interface Props {
  readonly debrief: DebriefView;
  /** Null: on their way. */
  readonly columns: WindowColumns | null;
}

/** What the ride says: three lines, the plan beside the ride, the heart with its chart, the hours; all in words on wish. */
export function ToldReading({ debrief, columns }: Props) {
  const { told, reading, document } = debrief;
  if (told === null || reading === null) return null;
  return (
    <section className="told stack wide" aria-labelledby="told-title">
      <div className="part">
        <header>
          <h2 id="told-title">{words.title}</h2>
        </header>
        <dl className="told-lines">
          {told.lines.map((line, index) => (
            <div key={words.lines[index]}>
              <dt>{words.lines[index]}</dt>
              <dd>{keepUnits(line)}</dd>
            </div>
          ))}
        </dl>
      </div>
      <div className="told-beside">
        <section className="part">
          <header>
            <h3>{words.planAndRide}</h3>
          </header>
          <SharesBar pressure={reading.pressure} />
          <PlanRows rows={told.rows} />
        </section>
        {told.heart.length > 0 && (
          <section className="part">
            <header>
              <h3>{words.heart}</h3>
            </header>
            <p>{keepUnits(told.heart.join(" "))}</p>
            {columns !== null && columns.heartRate !== null && <HeartChart columns={columns} debrief={debrief} />}
          </section>
        )}
      </div>
      <HourRows hours={reading.base.hours} units={document.plan.units} />
      <details className="told-words">
        <summary>{words.inWords}</summary>
        {told.inWords.map((section) => (
          <ul key={section[0]}>
            {section.map((line) => (
              <li key={line}>{keepUnits(line)}</li>
            ))}
          </ul>
        ))}
      </details>
    </section>
  );
}

/** What was asked beside what was ridden. */
function PlanRows({ rows }: Pick<Told, "rows">) {
  const asked = rows.some(({ plan }) => plan !== "");
  const { plan, ride } = words.columns;
  return (
    <table className="told-rows">
      <thead>
        <tr>
          <td />
          {asked && <th scope="col">{plan}</th>}
          <th scope="col">{ride}</th>
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={row.label}>
            <th scope="row">{row.label}</th>
            {asked && <td>{keepUnits(row.plan)}</td>}
            <td className="figure">{keepUnits(row.ride)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
