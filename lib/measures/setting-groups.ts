import type { SettingKey } from "../domain/settings"

/** The settings behind each part of a measure, so that its page can say all that shapes it. */
export const panelSettings: readonly SettingKey[] = ["panel.visitMonths"]

export const urineSettings: readonly SettingKey[] = ["acr.windowMonths", "acr.a3", "acr.confirmDays"]

export const ckdSettings: readonly SettingKey[] = ["egfr.windowMonths", ...urineSettings]

export const homeSettings: readonly SettingKey[] = [
  "bp.homeWindowDays",
  "bp.homeMinReadings",
  "bp.homeMinDays",
]

export const pressureSettings: readonly SettingKey[] = [
  "bp.windowMonths",
  "bp.sameDay",
  "bp.freshDays",
  ...homeSettings,
]

export const targetSettings: readonly SettingKey[] = [
  "bp.systolicTarget",
  "bp.diastolicTarget",
  "bp.homeSystolicTarget",
  "bp.homeDiastolicTarget",
  "bp.ambulatorySystolicTarget",
  "bp.ambulatoryDiastolicTarget",
]

export const classSettings: readonly SettingKey[] = ["drugs.counting", "drugs.graceDays"]

export const dietSettings: readonly SettingKey[] = ["diet.windowDays", "diet.urineRecovery"]
