// What goes wrong is logged as one line of named fields: never a message, which may quote a row, a value or a statement.

/** The site and its tests run in the folder of the program; places are told from there. */
const projectDir = `${process.cwd()}/`

/**
 * The fields of a failure that may be logged: what kind it is, its number, and where in the program it came about.
 * @param {unknown} thrown
 * @returns {Record<string, unknown>}
 */
export function loggedFields(thrown) {
  if (!(thrown instanceof Error)) return { kind: typeof thrown }
  const { name, code, digest, incident, cause } = Object.assign({}, { name: thrown.name }, ownFields(thrown))
  return {
    kind: word(name),
    ...(word(code) === undefined ? {} : { code: word(code) }),
    ...(word(incident ?? digest) === undefined ? {} : { incident: word(incident ?? digest) }),
    at: placesOf(thrown),
    ...(cause instanceof Error ? { cause: loggedFields(cause) } : {}),
  }
}

/**
 * The lines that stand for what a program says on its console: one a failure; words are counted, not repeated.
 * @param {string} level
 * @param {readonly unknown[]} said
 * @param {Date} now
 */
export function logLine(level, said, now) {
  const failures = said.filter((one) => one instanceof Error).map(loggedFields)
  return JSON.stringify({ time: now.toISOString(), level, ...(failures[0] ?? { kind: "words withheld" }) })
}

/** Puts these lines in the place of what the site would say of a failure; what it says on its standard output stays. */
export function quietConsole() {
  for (const level of ["error", "warn"])
    console[level] = (...said) => process.stderr.write(`${logLine(level, said, new Date())}\n`)
}

function ownFields(/** @type {object} */ error) {
  return { code: error.code, digest: error.digest, incident: error.incident, cause: error.cause }
}

/** A name of the program's own, not a sentence. */
function word(/** @type {unknown} */ text) {
  return typeof text === "string" && /^[\w.:;@-]{1,64}$/.test(text) ? text : undefined
}

/** The places of the stack, without its first lines, which are the message. */
function placesOf(/** @type {Error} */ error) {
  return (error.stack ?? "")
    .split("\n")
    .filter((line) => /^\s+at /.test(line))
    .slice(0, 8)
    .flatMap((line) => /\(?((?:file:|node:|\/)[^\s()]+:\d+:\d+)\)?$/.exec(line)?.[1] ?? [])
    .map((place) => place.replace("file://", "").replace(projectDir, ""))
}
