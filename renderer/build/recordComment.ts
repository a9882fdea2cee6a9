import { sayRecording } from "../desk/desk.ts";
import { wavBytes } from "../../main/contract/wavBytes.ts";

/** A recording under way. */
export interface Recording {
  /** Loudness now, 0 to 1, for a meter. */
  readonly level: () => number;
  /** Ends it; the sound as a 16-bit WAV file, mono, 48 kHz. */
  readonly stop: () => Promise<Uint8Array>;
  readonly cancel: () => void;
}

const RATE_HZ = 48_000;

/** Asks for the microphone and records until stopped. Rejects where it is refused or there is none. */
export async function recordComment(): Promise<Recording> {
  sayRecording(true);
  const stream = await navigator.mediaDevices
    .getUserMedia({ audio: { channelCount: 1, echoCancellation: true, noiseSuppression: true }, video: false })
    .catch((error: unknown) => {
      sayRecording(false);
      throw error;
    });
  const context = new AudioContext();
  const meter = context.createAnalyser();
  context.createMediaStreamSource(stream).connect(meter);
  const wave = new Float32Array(meter.fftSize);
  const recorder = new MediaRecorder(stream);
  const pieces: Blob[] = [];
  recorder.addEventListener("dataavailable", (event) => void pieces.push(event.data));
  const ended = new Promise<void>((resolve) => recorder.addEventListener("stop", () => resolve(), { once: true }));
  recorder.start();
  const letGo = async () => {
    if (recorder.state !== "inactive") recorder.stop();
    await ended;
    for (const track of stream.getTracks()) track.stop();
    sayRecording(false);
    await context.close();
  };
  return {
    level: () => {
      meter.getFloatTimeDomainData(wave);
      return Math.min(
        1,
        wave.reduce((most, value) => Math.max(most, Math.abs(value)), 0),
      );
    },
    stop: async () => {
      await letGo();
      const coded = await new Blob(pieces).arrayBuffer();
      const sound = await new OfflineAudioContext(1, 1, RATE_HZ).decodeAudioData(coded);
      return wavBytes(pcmOf(sound), RATE_HZ);
    },
    cancel: () => void letGo(),
  };
}

/** One channel as 16-bit numbers; louder than full is clipped. */
function pcmOf(sound: AudioBuffer): Int16Array {
  const mono = new Float32Array(sound.length);
  for (let channel = 0; channel < sound.numberOfChannels; channel++) {
    sound.getChannelData(channel).forEach((value, k) => (mono[k]! += value / sound.numberOfChannels));
  }
  return Int16Array.from(mono, (value) => Math.round(Math.max(-1, Math.min(1, value)) * 32767));
}
