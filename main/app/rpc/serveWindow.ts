import { createBirpc } from "birpc";
import type { DebriefApi, DeskEvents } from "../../contract/debriefApi.ts";
import { debugText, Failure } from "../../contract/failure.ts";
import { failureData } from "../desk/failureData.ts";
import { callSchemas } from "./callSchemas.ts";

/** Text frames to and from one window: a web socket, or the one IPC channel. */
export interface WindowChannel {
  post(text: string): void;
  on(listener: (text: string) => void): void;
}

/** A window that is connected. */
export interface ServedWindow {
  /** What the program tells it. */
  readonly events: DeskEvents;
  /** The channel ended. */
  close(): void;
}

type Call = (...args: readonly unknown[]) => Promise<unknown>;

/** Gives the API to one window. Only calls with a schema exist; arguments that don't fit reject with `usage`. */
export function serveWindow(api: DebriefApi, channel: WindowChannel): ServedWindow {
  const checked = (name: keyof DebriefApi): Call => {
    const handler = api[name].bind(api) as Call;
    return async (...args) => {
      const parsed = callSchemas[name].safeParse(args);
      if (!parsed.success) throw new Failure("call-unknown-form", { call: name }, parsed.error);
      return handler(...(parsed.data as readonly unknown[]));
    };
  };
  const calls = new Map<string, Call>(
    (Object.keys(callSchemas) as (keyof DebriefApi)[]).map((name) => [name, checked(name)]),
  );

  const rpc = createBirpc<DeskEvents>(
    {},
    {
      post: (text: string) => channel.post(text),
      on: (listener) => channel.on(listener as (text: string) => void),
      serialize: (message: { readonly e?: unknown }) =>
        JSON.stringify(message.e === undefined ? message : { ...message, e: failureData(message.e) }),
      deserialize: (text: unknown) => readMessage(text),
      // Not birpc's own look-up: that reaches `constructor` and whatever else an object inherits.
      resolver: (name) => calls.get(name),
      eventNames: ["state", "progress"],
      timeout: -1,
      onGeneralError: () => true,
      onFunctionError(error) {
        if (process.env.FOLLOWCAR_DEBUG) process.stderr.write(`${debugText(error)}\n`);
      },
    },
  );
  return {
    events: {
      state: (state) => void rpc.state(state),
      progress: (jobId, progress) => void rpc.progress(jobId, progress),
    },
    close: () => rpc.$close(),
  };
}

/** A request of the window; anything else is dropped by `onGeneralError`. */
function readMessage(text: unknown): unknown {
  if (typeof text !== "string") throw new Error("not text");
  const message = JSON.parse(text) as { readonly t?: unknown; readonly m?: unknown; readonly a?: unknown };
  if (
    message === null ||
    typeof message !== "object" ||
    message.t !== "q" ||
    typeof message.m !== "string" ||
    !Array.isArray(message.a)
  )
    throw new Error("no request");
  return message;
}
