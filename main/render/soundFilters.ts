/** Sound of all films, Hz. */
export const SAMPLE_RATE_HZ = 48_000;

/** The sound of one piece, exactly `samples` long. */
export interface SoundPiece {
  readonly samples: number;
  readonly crossfadeSamples: number;
  /** Null: silence. */
  readonly footage: {
    /** Number of ffmpeg's input. */
    readonly input: number;
    /** Where the first picture's sound begins, s after the input's seek point. */
    readonly startS: number;
    readonly speed: number;
    readonly channels: number;
    readonly holds: readonly { readonly afterSourceS: number; readonly silenceS: number }[];
  } | null;
  /** A spoken comment over it, or null. */
  readonly comment: SpokenComment | null;
  /** True: the footage carries speech: it is not softened beneath a comment. */
  readonly keepRideSound: boolean;
}

interface SpokenComment {
  readonly input: number;
  /** Where it begins, samples from the piece's first; negative where it began in the part before. */
  readonly startSample: number;
  /** Null: not known; the ride is then softened all through. */
  readonly samples: number | null;
  /** Brings it to the loudness of speech, dB. */
  readonly gainDb: number;
}

const RESAMPLED = `aresample=${SAMPLE_RATE_HZ}:async=1:first_pts=0`;
const STEREO = "aformat=sample_fmts=fltp:channel_layouts=stereo";
const FORMAT = `${RESAMPLED},${STEREO}`;
/** Faster than this, speech and wheels turn to chirping: the shot then carries its first seconds as filmed, softly. */
const PITCH_KEPT_TO = 2;
const AMBIENCE_GAIN = 0.3;
/** Ride sound beneath speech, and how long it takes to go down and up, s; common practice, no source. */
const UNDER_SPEECH_GAIN = 0.14;
const DUCK_S = 0.3;

/** Filter chains that end in one sound, pieces joined by crossfades where they overlap. */
export function soundFilters(pieces: readonly SoundPiece[]): {
  readonly chains: readonly string[];
  readonly label: string;
} {
  const chains: string[] = [];
  pieces.forEach((piece, k) => {
    chains.push(...footageChains(piece, k));
    if (piece.comment !== null) chains.push(...commentChains(piece, piece.comment, k));
  });
  let label = endOf(pieces[0]!, 0);
  for (let k = 1; k < pieces.length; k += 1) {
    const piece = pieces[k]!;
    const join = piece.crossfadeSamples > 0 ? `acrossfade=ns=${piece.crossfadeSamples}` : "concat=n=2:v=0:a=1";
    chains.push(`[${label}][${endOf(piece, k)}]${join}[aj${k}]`);
    label = `aj${k}`;
  }
  return { chains, label };
}

function endOf(piece: SoundPiece, k: number): string {
  return piece.comment === null ? `a${k}` : `am${k}`;
}

/** Padded with silence or cut to its exact length. */
function exactly(samples: number): string {
  return `apad=whole_len=${samples},atrim=end_sample=${samples},asetpts=N/SR/TB`;
}

/** Footage as two channels: one channel as loud as it was, more than two so that their sum cannot clip. */
function asStereo(channels: number): string {
  if (channels === 1) return `${RESAMPLED},pan=stereo|c0=c0|c1=c0,${STEREO}`;
  if (channels <= 2) return FORMAT;
  // ITU-R BS.775: centre and each pair behind go to both sides at -3 dB.
  const beside = channels <= 3 ? 1 : channels <= 7 ? 2 : 3;
  return `${RESAMPLED},volume=${(1 / (1 + beside * Math.SQRT1_2)).toFixed(4)},${STEREO}`;
}

function silence(samples: number): string {
  return `anullsrc=r=${SAMPLE_RATE_HZ}:cl=stereo,atrim=end_sample=${samples},aformat=sample_fmts=fltp`;
}

function footageChains(piece: SoundPiece, k: number): string[] {
  const { footage } = piece;
  if (footage === null) return [`${silence(piece.samples)}[a${k}]`];
  const { input, startS, speed, channels, holds } = footage;
  const stereo = asStereo(channels);
  const from = (s: number): string => (startS + s).toFixed(6);
  if (speed > PITCH_KEPT_TO) {
    return [
      `[${input}:a]${stereo},atrim=start=${from(0)},asetpts=PTS-STARTPTS,volume=${AMBIENCE_GAIN},${exactly(piece.samples)}[a${k}]`,
    ];
  }
  const tempo = tempoFilters(speed);
  if (holds.length === 0) {
    return [
      `[${input}:a]${stereo},atrim=start=${from(0)},asetpts=PTS-STARTPTS,${tempo}${exactly(piece.samples)}[a${k}]`,
    ];
  }
  // Footage, silence, footage, ...: each stretch cut to its own number of samples.
  const chains = [
    `[${input}:a]${stereo},asplit=${holds.length + 1}${holds.map((_, n) => `[a${k}in${n}]`).join("")}[a${k}in${holds.length}]`,
  ];
  const names: string[] = [];
  let sourceS = 0;
  const stretch = (n: number, untilS: number | null): void => {
    const end = untilS === null ? "" : `:end=${from(untilS)}`;
    const length = untilS === null ? "" : `,${exactly(Math.round(((untilS - sourceS) / speed) * SAMPLE_RATE_HZ))}`;
    chains.push(
      `[a${k}in${n}]atrim=start=${from(sourceS)}${end},asetpts=PTS-STARTPTS,${tempo}anull${length}[a${k}s${n}]`,
    );
    names.push(`a${k}s${n}`);
  };
  holds.forEach((hold, n) => {
    stretch(n, Math.max(hold.afterSourceS, sourceS + 2 / SAMPLE_RATE_HZ));
    sourceS = hold.afterSourceS;
    chains.push(`${silence(Math.round(hold.silenceS * SAMPLE_RATE_HZ))}[a${k}h${n}]`);
    names.push(`a${k}h${n}`);
  });
  stretch(holds.length, null);
  chains.push(
    `${names.map((name) => `[${name}]`).join("")}concat=n=${names.length}:v=0:a=1,${exactly(piece.samples)}[a${k}]`,
  );
  return chains;
}

/**
 * Stretches or hastens sound without moving its pitch. The stretcher works in windows of a share of what it takes for
 * the sample rate, and where it stretches its sound comes early by about half of one at each pass: it is told half the
 * rate, which halves that, and what is left is waited for. Below a quarter of the speed a pass's errors are stretched
 * by two or more after it, so that all but the last are told a quarter.
 */
function tempoFilters(speed: number): string {
  if (speed === 1) return "";
  const passes = tempoPasses(speed).map((tempo, k, all) => ({ tempo, fine: all.length > 2 && k < all.length - 1 }));
  const earlyOf = (tempo: number, fine: boolean): number =>
    tempo >= 1 ? 0 : fine ? EARLY_FINE_S : EARLY_S - EARLY_LESS_S * tempo;
  const earlyS = passes.reduce((early, { tempo, fine }) => early / tempo + earlyOf(tempo, fine), 0);
  const stretched = passes.map(({ tempo, fine }, k) => {
    const told = k > 0 && passes[k - 1]!.fine === fine ? "" : `asetrate=${SAMPLE_RATE_HZ / (fine ? 4 : 2)},`;
    return `${told}atempo=${tempo}`;
  });
  const late = Math.round(earlyS * SAMPLE_RATE_HZ);
  const wait = late > 0 ? `adelay=delays=${late}S:all=1,` : "";
  return `${stretched.join(",")},asetrate=${SAMPLE_RATE_HZ},${wait}`;
}

/** How early a pass of the stretcher is, s: the first less the second times its tempo; measured on bursts and beeps. */
const EARLY_S = 0.014;
const EARLY_LESS_S = 0.01;
/** The same of a pass that is told a quarter of the rate. */
const EARLY_FINE_S = 0.002;

/** `atempo` takes 0.5 to 2 at a time. */
function tempoPasses(speed: number): number[] {
  return speed < 0.5 ? [0.5, ...tempoPasses(speed / 0.5)] : speed === 1 ? [] : [speed];
}

function commentChains(piece: SoundPiece, comment: SpokenComment, k: number): string[] {
  const { startSample, gainDb } = comment;
  const begin =
    startSample < 0
      ? `,atrim=start_sample=${-startSample},asetpts=PTS-STARTPTS`
      : startSample > 0
        ? `,adelay=delays=${startSample}S:all=1`
        : "";
  const spoken = `[${comment.input}:a]${FORMAT},volume=${gainDb.toFixed(2)}dB${begin},${exactly(piece.samples)}[ac${k}]`;
  const beneath = piece.keepRideSound ? "anull" : `volume=eval=frame:volume='${duckingGain(comment)}'`;
  return [spoken, `[a${k}]${beneath}[au${k}]`, `[au${k}][ac${k}]amix=inputs=2:duration=first:normalize=0[am${k}]`];
}

/** Gain of the ride over the piece's time: down as the comment begins, up again when it has ended. */
function duckingGain({ startSample, samples }: SpokenComment): string {
  const fromS = startSample / SAMPLE_RATE_HZ;
  const down = `clip((t-${fromS.toFixed(4)})/${DUCK_S}+1,0,1)`;
  const up = samples === null ? "1" : `clip((${(fromS + samples / SAMPLE_RATE_HZ).toFixed(4)}-t)/${DUCK_S}+1,0,1)`;
  return `1-${1 - UNDER_SPEECH_GAIN}*${down}*${up}`;
}
