import type { Settings } from "../domain/settings"

/** The clinic's rule: so many attempts by so many channels, then a letter, then the clinician is told. */
export type AttemptsRule = { readonly attempts: number; readonly channels: number }

/** The rule as the clinic set it. */
export function attemptsRule(settings: Settings): AttemptsRule {
  return { attempts: settings["outreach.attempts"], channels: settings["outreach.channels"] }
}

export type AttemptStep = "try" | "try another channel" | "write a letter" | "tell the clinician"

/** What comes next after the attempts of this round, earliest first. */
export function nextStep(attempts: readonly { channel: string }[], rule: AttemptsRule): AttemptStep {
  const tried = attempts.filter((one) => one.channel !== "letter")
  const channels = new Set(tried.map((one) => one.channel)).size
  const isDone = tried.length >= rule.attempts && channels >= rule.channels
  if (isDone) return tried.length < attempts.length ? "tell the clinician" : "write a letter"
  const left = rule.attempts - tried.length
  return left <= rule.channels - channels && tried.length > 0 ? "try another channel" : "try"
}
