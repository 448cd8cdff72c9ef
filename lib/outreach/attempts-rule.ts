import type { ContactChannel } from "../domain/outreach-case"

/** The clinic's rule: so many attempts by so many channels, then a letter, then the clinician is told. */
export type AttemptsRule = { readonly attempts: number; readonly channels: number }

/** Source: three attempts by two channels and then a letter, common practice, no source. */
export const defaultAttemptsRule: AttemptsRule = { attempts: 3, channels: 2 }

export type AttemptStep = "try" | "try another channel" | "write a letter" | "tell the clinician"

/** What comes next after the attempts of this round, earliest first. */
export function nextStep(attempts: readonly { channel: ContactChannel }[], rule: AttemptsRule): AttemptStep {
  const tried = attempts.filter((one) => one.channel !== "letter")
  const channels = new Set(tried.map((one) => one.channel)).size
  const isDone = tried.length >= rule.attempts && channels >= rule.channels
  if (isDone) return tried.length < attempts.length ? "tell the clinician" : "write a letter"
  const left = rule.attempts - tried.length
  return left <= rule.channels - channels && tried.length > 0 ? "try another channel" : "try"
}
