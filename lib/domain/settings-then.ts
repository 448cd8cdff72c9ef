import type { Settings } from "./settings"

/** What a snapshot says of its settings: those of now, and those each closed month was closed with. */
export type SettingsOverTime = {
  settings: Settings
  closed: readonly { asOf: string; settings: Settings }[]
}

/**
 * The settings by which the figures and words of a day are told: of a closed month those it was closed with, so that it names
 * the targets of then. How few people a group may show is no such setting: it protects them by what the clinic holds today.
 */
export function settingsThen({ settings, closed }: SettingsOverTime, asOf: string): Settings {
  const then = closed.find((one) => one.asOf === asOf)?.settings
  if (then === undefined) return settings
  return { ...then, "reports.smallestGroup": settings["reports.smallestGroup"] }
}
