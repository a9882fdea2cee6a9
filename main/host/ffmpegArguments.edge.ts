import fluentFfmpeg from "fluent-ffmpeg";

interface FfmpegInput {
  /** A path, `pipe:0`, or a source graph where the options say `-f lavfi`. */
  readonly source: string;
  /** Options that stand before its `-i`, one argument an entry. */
  readonly options: readonly string[];
}

export interface FfmpegCommand {
  readonly inputs: readonly FfmpegInput[];
  /** A whole filter graph with named outputs, or null. */
  readonly filterGraph: string | null;
  readonly outputOptions: readonly string[];
  /** Path of the file to write; `-` for none, or for what is read from stdout. */
  readonly output: string;
  /** Level of what ffmpeg says on stderr, for a run that is read by its words or its stdout; it then counts no frames. */
  readonly log?: "error" | "info" | "verbose";
}

/** Nothing of the network, nor any protocol by which a file names another. */
const PROTOCOLS = ["-protocol_whitelist", "file,pipe"];
/** Clips, spoken comments and what we make ourselves: a playlist, by whatever name, is none of them. */
const FORMATS = "mov,matroska,wav";

/** What may be read as an input, whatever its bytes say: a kind that is named, else one of `FORMATS`; our own list of parts names only such. */
function inputLimits(options: readonly string[]): string[] {
  const named = options[options.indexOf("-f") + 1];
  if (!options.includes("-f")) return [...PROTOCOLS, "-format_whitelist", FORMATS];
  return named === "concat" ? [...PROTOCOLS, "-format_whitelist", `concat,${FORMATS}`] : PROTOCOLS;
}

/** The argument list of one question to ffprobe about a file of a person's; the answer is JSON. */
export function ffprobeArguments(path: string, asked: readonly string[]): string[] {
  return ["-v", "error", ...inputLimits([]), "-of", "json", ...asked, fileUrl(path)];
}

/** The argument list of one question to ffmpeg about itself. */
export function ffmpegQuestion(question: "-version" | "-filters" | "-encoders"): string[] {
  return ["-hide_banner", question];
}

/** Said once for every run: no question, no banner. */
const ALWAYS = ["-hide_banner", "-nostdin", "-nostats"];
/** Messages that count, progress as lines on stdout. */
const COUNTED = ["-loglevel", "warning", "-progress", "pipe:1"];

/**
 * The argument list of one ffmpeg run, put together by fluent-ffmpeg; nothing is started here. The one place that knows
 * that library (its repository is archived): whatever takes its place, takes it here.
 *
 * Options are handed over as separate arguments, since that library splits a lone string at its space.
 */
export function ffmpegArguments(command: FfmpegCommand): string[] {
  const assembled = fluentFfmpeg() as fluentFfmpeg.FfmpegCommand & { _getArguments(): string[] };
  for (const input of command.inputs) {
    assembled.input(input.options.includes("lavfi") ? input.source : fileUrl(input.source));
    assembled.inputOptions(...pairProof([...inputLimits(input.options), ...input.options]));
  }
  if (command.filterGraph !== null) assembled.complexFilter(command.filterGraph);
  assembled.outputOptions(...pairProof(command.outputOptions));
  assembled.output(command.output === "-" ? "-" : fileUrl(command.output));
  const list = assembled._getArguments().filter((argument) => argument !== "-y");
  return [...ALWAYS, ...(command.log === undefined ? COUNTED : ["-loglevel", command.log]), "-y", ...list];
}

/** A single option would be taken for a line to split; two never are. */
function pairProof(options: readonly string[]): [string, string, ...string[]] {
  if (options.length < 2) throw new RangeError("Options of ffmpeg come in pairs here.");
  return options as unknown as [string, string, ...string[]];
}

/** The `file:` protocol keeps a name with a colon, a dash or a percent sign from being read as something else. */
function fileUrl(source: string): string {
  return /^pipe:\d+$/.test(source) || source === "-" ? source : `file:${source}`;
}
