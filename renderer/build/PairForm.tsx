import type { BesideAsk, ClipView, DebriefView } from "../../main/contract/debriefApi.ts";
import type { CardItem } from "../../main/contract/film.ts";
import { FOLLOW_WAYS, type PairCard } from "../../main/contract/pair.ts";
import { Choice } from "../look/Choice.tsx";
import { NumberField } from "../look/NumberField.tsx";
import { SelectField } from "../look/SelectField.tsx";
import { build as words } from "../words/build.ts";

interface Props {
  readonly item: CardItem;
  readonly card: PairCard;
  readonly roads: DebriefView["roads"];
  readonly clips: readonly ClipView[];
  readonly locked: boolean;
  readonly onShow: (ask: BesideAsk) => void;
}

/** A shot of two rides: by place or by time, which side, how long. It is made anew by the program with each. */
export function PairForm({ item, card, roads, clips, locked, onShow }: Props) {
  const { of } = card;
  const name = card.sides[of?.ownSecond === true ? 0 : 1].name;
  const road = roads.findIndex(
    (one) => one.name === name && of !== undefined && one.startS <= of.startS + 1 && one.endS > of.startS,
  );
  if (of === undefined || road < 0) return <p className="small quiet">{words.pair.gone}</p>;
  const { startS, endS, ownSecond, otherClipId } = of;
  const { footage } = card.sides[ownSecond ? 0 : 1];
  const show = (change: Partial<BesideAsk>) =>
    onShow({
      ...{ road, startS, endS, ownSecond, follow: card.follow, itemId: item.id },
      how: "halves",
      ...(otherClipId === undefined ? {} : { otherClipId }),
      ...change,
    });
  return (
    <div className="stack">
      <Choice
        label={words.pair.follow}
        options={FOLLOW_WAYS}
        chosen={card.follow}
        said={words.pair}
        locked={locked}
        onChoose={(follow) => show({ follow })}
      />
      <Choice
        label={words.pair.side}
        options={["first", "second"] as const}
        chosen={ownSecond ? "second" : "first"}
        said={words.pair}
        locked={locked}
        onChoose={(side) => show({ ownSecond: side === "second" })}
      />
      <NumberField
        label={words.pair.lasts}
        unit={words.seconds}
        value={Math.round(endS - startS)}
        least={2}
        most={120}
        disabled={locked}
        onChange={(value) => value !== null && show({ endS: startS + value })}
      />
      {roads[road]!.otherRider && clips.length > 0 && (
        <OtherPicture
          clips={clips}
          shown={otherClipId ?? footage?.clipId ?? null}
          there={footage !== null}
          locked={locked}
          onChoose={(chosen) => show({ otherClipId: chosen })}
        />
      )}
    </div>
  );
}

interface OtherPictureProps {
  readonly clips: readonly ClipView[];
  /** Null: numbers and road alone. */
  readonly shown: string | null;
  /** The part has a picture of it. */
  readonly there: boolean;
  readonly locked: boolean;
  readonly onChoose: (clipId: string | null) => void;
}

/** Which clip shows the other rider: that rider's own camera, lined up as any other. */
function OtherPicture({ clips, shown, there, locked, onChoose }: OtherPictureProps) {
  const missing = there ? undefined : clips.find(({ id }) => id === shown);
  return (
    <SelectField
      label={words.pair.picture}
      hint={missing && words.pair.notHere(missing.name)}
      value={shown ?? ""}
      options={[["", words.pair.noPicture], ...clips.map(({ id, name }) => [id, name] as const)]}
      disabled={locked}
      onChoose={(id) => onChoose(id || null)}
    />
  );
}
