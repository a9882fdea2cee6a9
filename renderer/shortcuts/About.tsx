import { useEffect, useState } from "react";
import type { AboutProgram } from "../../main/contract/debriefApi.ts";
import { desk } from "../desk/desk.ts";
import { Dialog } from "../look/Dialog.tsx";
import { FailureNote } from "../look/FailureNote.tsx";
import { OneOf } from "../look/OneOf.tsx";
import { bytesText } from "../look/bytesText.ts";
import { type ThemeChoice, keptTheme, setTheme } from "../look/theme.ts";
import { useCalls } from "../look/useCalls.ts";
import { shortcuts as words } from "../words/shortcuts.ts";
import "./shortcuts.css";

const THEMES: readonly ThemeChoice[] = ["system", "light", "dark"];

/** What this program is, what it found on the machine, its colours, and the cautions. */
export function About({ onClose }: { readonly onClose: () => void }) {
  const [about, setAbout] = useState<AboutProgram | null>(null);
  const [theme, choose] = useState(keptTheme);
  const { failure, call } = useCalls();
  useEffect(() => void call(async () => setAbout(await desk.about())), [call]);
  return (
    <Dialog title={words.about} onClose={onClose}>
      <div className="stack wide">
        {failure !== null && <FailureNote failure={failure} />}
        {about !== null && (
          <p>
            <b>{words.version(about.version)}</b>, {words.shells[about.shell]}
          </p>
        )}
        <fieldset>
          <legend>{words.theme}</legend>
          <OneOf
            name="theme"
            options={THEMES}
            chosen={theme}
            said={(one) => words.themes[one]}
            onChoose={(one) => {
              choose(one);
              setTheme(one);
            }}
          />
        </fieldset>
        <section className="stack">
          <h3>{words.cautions}</h3>
          <ul className="about-lines">
            {words.cautionLines.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </section>
        <p>{words.local}</p>
        {about !== null && (
          <section className="stack">
            <h3>{words.tools}</h3>
            <ul className="about-lines">
              {about.tools.map((tool) => (
                <li key={tool}>{tool}</li>
              ))}
              <li>
                {words.logs}: {about.logFolder}, {words.logHolds}
              </li>
              <li>
                {words.cache}: {about.cache.path}.{" "}
                {words.cacheHolds(bytesText(about.cache.bytes), bytesText(about.cache.limitBytes))}
              </li>
            </ul>
          </section>
        )}
        <p className="quiet small">{words.licence}</p>
        <Packages />
      </div>
    </Dialog>
  );
}

/** Every package that goes with the program, read when it is opened. */
function Packages() {
  const [text, setText] = useState<string | null>(null);
  const { failure, call } = useCalls();
  return (
    <details onToggle={() => text === null && void call(async () => setText(await desk.packageNotices()))}>
      <summary>{words.packages}</summary>
      {failure !== null && <FailureNote failure={failure} />}
      {text !== null && (
        <pre className="about-packages" tabIndex={0} aria-label={words.packages}>
          {text}
        </pre>
      )}
    </details>
  );
}
