import type {
  AnchorTrouble,
  InheritDoubt,
  PlacementReason,
  PlacementReasons,
  SignalDoubt,
  SignalFeature,
} from "../../../../main/contract/notices/placement.ts";
import { exactClockText, komma, listed, otherDays, saidDoubts, withButs } from "../parts.ts";

const FEATURES: Readonly<Record<SignalFeature, string>> = {
  motion: "Halten und Anfahren",
  sound: "Wind- und Reifengeräusch",
  turning: "Kurven",
  swing: "Drehung laut Kreiselsensor",
  shake: "Erschütterung durch die Straße",
};

const DOUBTS: Readonly<Record<SignalDoubt, string>> = {
  "could be chance": "die Übereinstimmung könnte Zufall sein",
  "another place fits": "eine andere Stelle der Fahrt passt fast ebenso gut",
  "few moments": "sie beruht nur auf wenigen Augenblicken",
  "too short": "um Zufall auszuschließen, braucht es mindestens zwei Minuten Aufnahme",
  "not sharp": "die Stelle ist nicht scharf zu bestimmen",
  "mark of the clock open": "die Uhr der Kamera könnte den Anfang oder das Ende ihrer Clips angeben",
};

const SIDES = { "before the ride": "vor Beginn der Fahrt", "after the ride": "nach Ende der Fahrt" } as const;

function zone(zoneMin: number): string {
  if (zoneMin === 0) return "als UTC gelesen";
  return `als Ortszeit gelesen (UTC${zoneMin > 0 ? "+" : "-"}${exactClockText(Math.abs(zoneMin) * 60).slice(0, -3)})`;
}

function markWithRest(mark: { readonly mediaS: number; readonly rideS: number; readonly residualS: number }): string {
  const rest = `${mark.residualS < 0 ? "-" : "+"}${komma(Math.abs(mark.residualS), 1)}`;
  return `${exactClockText(mark.mediaS)} = ${exactClockText(mark.rideS)} (${rest} s)`;
}

function trouble(found: AnchorTrouble): string {
  return found.kind === "one left out"
    ? `Anker ${found.mark} weicht um ${komma(found.byS, 1)} s von den anderen ab und ist weggelassen`
    : `Anker ${found.pair[0].mark} und ${found.pair[1].mark} widersprechen sich um ${komma(found.byS, 1)} s, ` +
        "was keine falsch gehende Uhr erklärt: " +
        `${found.pair.map(markWithRest).join(", ")}` +
        "; läuft der Clip langsamer oder schneller als gefilmt, gehört „slow 4“ oder „fast 10“ hinter einen Anker";
}

function doubt(found: InheritDoubt): string {
  switch (found.kind) {
    case "camera filmed another":
      return `dort liefe der Clip noch ${exactClockText(found.overlapS)}, während dieselbe Kamera ${found.fileName} filmte`;
    case "no sound":
      return `der Clip hat keinen Ton, ${found.sourceName} aber schon: vielleicht ist er Zeitlupe oder Zeitraffer`;
    case "camera not told":
      return (
        `er kann von einer anderen Kamera desselben Modells sein als ${found.sourceName}: beide Dateien haben keine ` +
        "Seriennummer, und ihre Namen zählen nicht von einer zur anderen weiter"
      );
    case "clock was reset":
      return `die Uhr der Kamera war nie gestellt und kann zwischen ihm und ${found.sourceName} neu begonnen haben`;
    case "fits elsewhere":
      return "Bild und Ton passen zu anderen Stellen der Fahrt besser";
  }
}

const times = (value: number) => {
  const whole = (v: number) => Number.isInteger(Number(v.toFixed(1)));
  const told = (v: number) => komma(v, whole(v) ? 0 : 1);
  return value < 1
    ? `der Clip ist ein Zeitraffer, der ${told(1 / value)}-mal schneller läuft, als er gefilmt wurde`
    : `der Clip ist eine Zeitlupe, die ${told(value)}-mal langsamer läuft, als sie gefilmt wurde`;
};

const lead = (leadS: number) => `${Math.abs(leadS).toFixed(0)} s ${leadS < 0 ? "hinter" : "vor"}`;

const WORDS: { readonly [C in keyof PlacementReasons]: (facts: PlacementReasons[C]) => string } = {
  anchors: ({ count, agreeToS, rate, trouble: found, byHand = false }) =>
    [
      count === 1 ? "ein Anker" : `${count} Anker`,
      agreeToS === null ? null : `auf ${komma(agreeToS, 2)} s einig`,
      rate === null ? null : `mit dem ${String(Number(rate.toPrecision(3))).replace(".", ",")}-fachen Tempo abgespielt`,
      found && trouble(found),
      byHand ? "von Hand weiter als um seinen Fehler verschoben und seitdem nicht mit dem Bild verglichen" : null,
    ]
      .filter((part) => part !== null)
      .join(", "),
  "camera-positions": ({ rmsM, movedM, anotherFits, hardlyMoved, clockOffS, unlike }) =>
    withButs(
      `die Positionen der Kamera folgen denen der Fahrt über ${Math.round(movedM)} m auf ${komma(rmsM, 1)} m genau`,
      [
        anotherFits ? "ein anderes Stück der Fahrt passt ebenso gut" : null,
        unlike ? "ein anderes Rad auf demselben Weg hätte das auch getan" : null,
        hardlyMoved ? "die Kamera hat sich kaum bewegt, ihr Ort verrät also die Zeit nicht" : null,
      ],
      clockOffS === null ? "" : `ihre Satellitenzeit weicht ${clockOffS.toFixed(0)} s von der Uhr der Fahrt ab`,
      "aber",
    ),
  "camera-on-another-rider": ({ leadS, errorS, unlike }) =>
    `diese Kamera fuhr ${lead(leadS)} der Datei; der Clip liegt deshalb, wo die Satellitenuhren beider ihn ` +
    `hinlegen, auf etwa ${komma(errorS, 1)} s` +
    `${unlike ? "; es kann aber auch der Fahrer der Datei selbst sein, mit falsch gehender Uhr" : ""}`,
  "camera-on-ride": ({ rideName, leadS }) =>
    `Positionen und Uhr sind die von ${rideName}: wer diese Fahrt fuhr, trug die Kamera${leadS === null ? "" : `, ${lead(leadS)} der gezeigten Fahrt`}`,
  "camera-clock-against-positions": ({ clockS, positionsS, rmsM }) =>
    `die Positionen folgen ab ${exactClockText(positionsS)} denen der Fahrt auf ${komma(rmsM, 1)} m, nach ` +
    `der Satellitenzeit beginnt der Clip aber bei ${exactClockText(clockS)} der Fahrt: ein anderer Tag, eine ` +
    "andere Runde oder eine nie gestellte Uhr",
  "shared-clock": ({ own, others }) =>
    `${placementReasonDe(own)}; zusammen mit ` +
    `${others === 1 ? "einer weiteren Aufnahme" : `${others} weiteren Aufnahmen`} dieser Kamera bestimmt, ` +
    `die dieselbe Uhr ${others === 1 ? "hat" : "haben"}`,
  "signals-match": ({ stopsS, turns, used, together, score, farFromClock }) => {
    const parts: string[] = [];
    if (stopsS.length === 1) parts.push(`ein Halt bei ${exactClockText(stopsS[0]!)}`);
    else if (stopsS.length > 1) parts.push(`${stopsS.length} Halte (der erste bei ${exactClockText(stopsS[0]!)})`);
    if (turns > 0) parts.push(turns === 1 ? "eine Kurve" : `${turns} Kurven`);
    if (used.includes("sound")) parts.push(FEATURES.sound);
    else if (parts.length === 0) parts.push(FEATURES.motion);
    const far = farFromClock ? "; das liegt aber weit von der Stelle entfernt, die die Uhr der Kamera nennt" : "";
    return (
      `bitte prüfen, mit der Fahrt stimmt überein: ${listed(parts, "und")}` +
      `${together ? ", alle Clips dieser Kamera zusammen" : ""} (Wert ${komma(score, 1)})${far}`
    );
  },
  "signals-open": ({ used, doubts }) =>
    `mit der Fahrt verglichen: ${used.map((feature) => FEATURES[feature]).join(", ")}; aber ${saidDoubts(doubts)
      .map((one) => DOUBTS[one])
      .join("; ")}`,
  "slow-motion": ({ own, times: slower }) =>
    own === null
      ? `${times(slower)}; weder Uhr noch Bild allein legen seine Stelle fest`
      : `${placementReasonDe(own)}; ${times(slower)}`,
  "clock-of": ({ sourceName, trimS }) =>
    `nach der Uhr der Kamera, die ${sourceName} festlegt` +
    (trimS === null
      ? ""
      : `, auf etwa ${trimS.toFixed(0)} s: ein Programm hat die Datei neu geschrieben und vielleicht den Anfang ` +
        "weggeschnitten; ein Anker macht es genau"),
  "clock-of-outside": ({ fileName, sourceName, side }) =>
    `nach der Uhr der Kamera, die ${sourceName} festlegt, wurde ${fileName} ${SIDES[side]} gefilmt`,
  "clocks-disagree": ({ fileName, sourceName }) =>
    `die zugeordneten Clips dieser Kamera sind sich über die Uhr nicht einig; ${fileName} folgt ${sourceName}, dem zeitlich nächsten`,
  "clock-mark-open": ({ sourceName, spreadS }) =>
    `der Clip folgt ${sourceName} nach der Uhr der Kamera; ob diese Uhr den Anfang oder das Ende eines Clips ` +
    `angibt, macht aber ${spreadS.toFixed(0)} s aus: ein Anker in einem weiteren Clip klärt es`,
  "inherited-doubted": ({ own, atS, doubt: found }) =>
    `${placementReasonDe(own)}, läge der Clip bei ${exactClockText(atS)}, aber ${doubt(found)}: ein Anker darin klärt es`,
  "filmed-elsewhere": ({ own, farM, rideName }) =>
    `${placementReasonDe(own)}; nach dem Ort in der Datei wurde der Clip aber ${Math.round(farM / 1000)} km von der Fahrt ` +
    `entfernt gefilmt${rideName === null ? "" : `, wo ${rideName} vorbeikommt`}: vielleicht gehört er zu einer anderen ` +
    "Fahrt, oder ein Anker klärt es",
  "no-clock-to-tie": ({ fileName }) =>
    `${fileName} hat keine Uhrzeit, die ihn mit den anderen verbindet: der Clip braucht einen eigenen Anker`,
  "clock-was-reset": ({ fileName }) =>
    `die Uhr der Kamera war nicht gestellt, als ${fileName} gefilmt wurde, und sagt deshalb nichts`,
  "no-clock": ({ fileName }) => `${fileName} hat keine Uhrzeit, und nichts anderes ordnet den Clip zu`,
  "clock-in-no-zone": ({ fileName, clipUtcMs, rideUtcMs }) => {
    const days = otherDays(clipUtcMs, rideUtcMs, "de");
    return days === null
      ? `nach der eigenen Uhrzeit liegt ${fileName} in jeder Zeitzone außerhalb dieser Fahrt`
      : `nach der eigenen Uhrzeit ist ${fileName} vom ${days.clip}, die Fahrt vom ${days.ride}: vielleicht ist es der falsche Clip`;
  },
  "clock-outside": ({ fileName, zoneMin, side }) =>
    `nach der Uhr der Kamera, ${zone(zoneMin)}, wurde ${fileName} ${SIDES[side]} gefilmt`,
  "clock-unchecked": ({ zoneMin }) => `allein nach der Uhr der Kamera, ${zone(zoneMin)}, ungeprüft`,
  "small-copy": ({ bigName }) =>
    `das ist die kleine Kopie, die die Kamera von ${bigName} geschrieben hat: dieselbe Aufnahme, verwendet wird die große`,
};

/** Why a clip lies where it lies, as part of a sentence, without a full stop. */
export function placementReasonDe({ code, facts }: PlacementReason): string {
  return (WORDS[code] as (facts: unknown) => string)(facts);
}
