import { z } from "zod"

/**
 * The clinic's settings by the names the definitions give them, with their defaults.
 * Those of `import` are read by an import, those of `reports` when a document or a group is shown, those of `access` when someone asks, those of `keep` when what is old is removed;
 * those of `outreach` by the list of people to contact; the others by the clinical views (as one row of the table `settings`).
 */
export const Settings = z.object({
  "panel.visitMonths": z.number().int().positive().default(18),
  "bp.windowMonths": z.number().int().positive().default(12),
  "bp.sameDay": z.enum(["mean", "lowest"]).default("mean"),
  "bp.homeWindowDays": z.number().int().positive().default(30),
  "bp.homeMinReadings": z.number().int().positive().default(12),
  "bp.homeMinDays": z.number().int().positive().default(3),
  "bp.freshDays": z.number().int().positive().default(90),
  "bp.systolicTarget": z.number().positive().default(130),
  "bp.diastolicTarget": z.number().positive().default(80),
  "bp.homeSystolicTarget": z.number().positive().nullable().default(null),
  "bp.homeDiastolicTarget": z.number().positive().nullable().default(null),
  "bp.ambulatorySystolicTarget": z.number().positive().nullable().default(null),
  "bp.ambulatoryDiastolicTarget": z.number().positive().nullable().default(null),
  "bp.lowSystolic": z.number().positive().default(110),
  "drugs.graceDays": z.number().int().nonnegative().default(30),
  "drugs.counting": z
    .enum(["together", "ras_separate", "diuretics_by_kind", "both_separate"])
    .default("together"),
  "drugs.several": z.number().int().positive().default(3),
  "drugs.overlapDays": z.number().int().nonnegative().default(30),
  "ras.fromCategory": z.enum(["A2", "A3"]).default("A2"),
  "egfr.windowMonths": z.number().int().positive().default(24),
  "acr.windowMonths": z.number().int().positive().default(24),
  "acr.a3": z.enum(["kdigo", "ada"]).default("kdigo"),
  "acr.confirmDays": z.number().int().positive().default(90),
  "kfre.region": z.enum(["north_america", "other"]).default("north_america"),
  "kfre.maxGapDays": z.number().int().positive().default(183),
  "diet.urineRecovery": z.number().positive().max(1).default(1),
  "diet.windowDays": z.number().int().positive().default(90),
  "diet.limitMg": z.number().positive().default(2000),
  "decisions.months": z.number().int().positive().default(12),
  "reports.smallestGroup": z.number().int().positive().default(11),
  "outreach.attempts": z.number().int().positive().default(3),
  "outreach.channels": z.number().int().positive().default(2),
  "outreach.bookedDays": z.number().int().positive().default(14),
  "outreach.aheadDays": z.number().int().positive().default(60),
  "outreach.letterValues": z.enum(["no", "yes"]).default("no"),
  "outreach.urgentText": z
    .string()
    .default(
      "The clinician named here is told the same day, or whoever stands in. Where neither can be reached, the clinic's rule for emergencies applies.",
    ),
  "outreach.reasonsOff": z.string().default(""),
  "outreach.reasonOrder": z.string().default(""),
  "access.ownPanel": z.enum(["none", "nephrologist"]).default("none"),
  "keep.rejectedDays": z.number().int().positive().default(365),
  "keep.uploadDays": z.number().int().positive().default(30),
  "keep.sessionDays": z.number().int().positive().default(90),
  "keep.failureDays": z.number().int().positive().default(366),
  "import.rejectShare": z.number().positive().default(0.05),
  "import.rejectRows": z.number().int().positive().default(20),
  "import.withdrawShare": z.number().positive().default(0.1),
})

export type Settings = z.infer<typeof Settings>

export type SettingKey = keyof Settings

export const defaultSettings: Settings = Settings.parse({})
