/** Options that take a text, for `Verb.options`. */
export function texts<Name extends string>(...names: Name[]) {
  return allAs(names, { type: "string" } as const);
}

/** Options that take a text and may be given several times. */
export function lists<Name extends string>(...names: Name[]) {
  return allAs(names, { type: "string", multiple: true } as const);
}

/** Options that are given or not. */
export function flags<Name extends string>(...names: Name[]) {
  return allAs(names, { type: "boolean" } as const);
}

function allAs<Name extends string, Kind>(names: readonly Name[], kind: Kind): Readonly<Record<Name, Kind>> {
  return Object.fromEntries(names.map((name) => [name, kind])) as Record<Name, Kind>;
}
