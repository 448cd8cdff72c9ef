import { randomBytes } from "node:crypto"
import { loggedFields } from "./front/quiet-log.mjs"

/** A number by which a person and the log speak of one failure. */
export function newIncident(): string {
  return randomBytes(6).toString("hex")
}

/** Logs a failure by its named fields alone: kind, code, places in the program. Its message may quote a patient and stays out. */
export function logFailure(error: unknown, incident: string): void {
  const line = { time: new Date().toISOString(), level: "error", ...loggedFields(error), incident }
  process.stderr.write(`${JSON.stringify(line)}\n`)
}
