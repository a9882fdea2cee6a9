import { useEffect, useMemo, useRef, useState } from "react";
import type { HandOverChoices } from "../../main/contract/debriefApi.ts";
import type { Film } from "../../main/contract/film.ts";
import { filmClock } from "../../overlay/instant/filmClock.ts";
import { clockText } from "../../overlay/words/numbers.ts";
import { FilmRuler, type FilmRulerHandle } from "../build/FilmRuler.tsx";
import { FilmStage, type FilmStageHandle } from "../build/FilmStage.tsx";
import type { FilmPlace } from "../build/filmPlayhead.ts";
import { fetchRideColumns } from "../desk/columns.ts";
import { desk } from "../desk/desk.ts";
import { useDebrief } from "../desk/useDesk.ts";
import { useFetched } from "../desk/useFetched.ts";
import { Button } from "../look/Button.tsx";
import { useKeys } from "../look/keys.ts";
import { useWidth } from "../look/useWidth.ts";
import { handover as words } from "../words/handover.ts";

interface Props {
  /** As it will be handed over. It has a part at least. */
  readonly film: Film;
  readonly choices: Pick<HandOverChoices, "preset" | "language" | "forWhom" | "asPercent">;
}

/** The film as it will be handed over, played whole before it is rendered: with its sound and its crossfades. */
export function WatchFilm({ film, choices }: Props) {
  const { clips, addresses, document: written, commentAddresses } = useDebrief();
  const columns = useFetched(addresses.columns, fetchRideColumns).value;
  const stage = useRef<FilmStageHandle>(null);
  const ruler = useRef<FilmRulerHandle>(null);
  const box = useRef<HTMLDivElement>(null);
  const clock = useRef<HTMLSpanElement>(null);
  const [playing, setPlaying] = useState(false);
  const lengthS = useMemo(() => filmClock(film).lengthS, [film]);
  const roomPx = useWidth(box);
  const playOrStop = () => (stage.current?.playing === true ? stage.current.stop() : stage.current?.play());
  useKeys(words.watch, [{ keys: " ", words: words.watchKey, run: playOrStop }]);
  useEffect(() => stage.current?.show(0, 0), []);
  const onPlace = ({ filmS }: FilmPlace) => {
    ruler.current?.show(filmS);
    if (clock.current !== null) clock.current.textContent = `${clockText(filmS)} / ${clockText(Math.round(lengthS))}`;
  };
  return (
    <section className="part watch" aria-labelledby="watch-title">
      <header>
        <h2 id="watch-title">{words.watch}</h2>
        <span className="quiet small">{words.watchMore}</span>
      </header>
      <div className="watch-picture" style={{ aspectRatio: `${film.widthPx} / ${film.heightPx}` }}>
        <FilmStage
          film={film}
          clips={clips}
          framesAddress={addresses.frames}
          columns={columns}
          units={written.plan.units}
          language={choices.language}
          look={written.settings.look}
          preset={choices.preset}
          handle={stage}
          onPlace={onPlace}
          onPlaying={setPlaying}
          onWantProxy={(clipId) => void desk.makeProxy(clipId)}
          commentOf={(id) => commentAddresses[id] ?? null}
        />
      </div>
      <div ref={box} className="watch-ruler">
        {roomPx > 0 && (
          <FilmRuler
            handle={ruler}
            lengthS={lengthS}
            pxPerS={roomPx / lengthS}
            box={box}
            onSeek={(filmS) => stage.current?.seek(filmS)}
          />
        )}
      </div>
      <div className="row">
        <Button kind="main" keys=" " onClick={playOrStop}>
          {playing ? words.watchStop : words.watchPlay}
        </Button>
        <span ref={clock} className="figure" />
      </div>
      {choices.forWhom === "lesson" && choices.asPercent && <p className="note unsure">{words.watchPercent}</p>}
    </section>
  );
}
