const part = { measureId: "uncontrolled-on-several-classes", standing: "met", isAhead: false } as const

/**
 * What tells resistance from something simpler among those above target on several classes: which of the three usual classes is
 * missing, how the doses stand to the usual maximum, where the pressure was measured, and whether supply had gaps.
 */
export const resistanceDetails = [
  {
    ...part,
    id: "no-diuretic",
    words: "without a diuretic",
    sql: "not p.on_diuretic",
    restsOn: ["drugs of counted classes"],
    isOnMonth: true,
  },
  {
    ...part,
    id: "no-ras-blocker",
    words: "without an ACE inhibitor, ARB or renin inhibitor",
    sql: "not p.on_any_ras_blocker",
    restsOn: ["drugs of counted classes"],
    isOnMonth: false,
  },
  {
    ...part,
    id: "no-calcium-channel-blocker",
    words: "without a calcium channel blocker",
    sql: "not p.on_calcium_channel_blocker",
    restsOn: ["drugs of counted classes"],
    isOnMonth: false,
  },
  {
    ...part,
    id: "all-three",
    words: "on a diuretic, a RAS blocker and a calcium channel blocker",
    sql: "p.on_diuretic and p.on_any_ras_blocker and p.on_calcium_channel_blocker",
    restsOn: ["drugs of counted classes"],
    isOnMonth: false,
  },
  {
    ...part,
    id: "dose-below-half",
    words: "with a class below half of its usual maximum dose",
    sql: "p.classes_below_half > 0",
    restsOn: ["drugs of counted classes"],
    isOnMonth: false,
  },
  {
    ...part,
    id: "dose-half-or-more",
    words: "with every class at half of its usual maximum dose or above",
    sql: "p.classes_below_half = 0 and p.classes_dose_unknown = 0",
    restsOn: ["drugs of counted classes"],
    isOnMonth: false,
  },
  {
    ...part,
    id: "dose-at-maximum",
    words: "with a class at its usual maximum dose",
    sql: "p.classes_at_maximum > 0",
    restsOn: ["drugs of counted classes"],
    isOnMonth: false,
  },
  {
    ...part,
    id: "dose-unknown",
    words: "with a class whose dose is not known",
    sql: "p.classes_dose_unknown > 0",
    restsOn: ["drugs of counted classes"],
    isOnMonth: false,
  },
  {
    ...part,
    id: "five-classes",
    words: "on five or more classes",
    sql: "p.class_count >= 5",
    restsOn: ["drugs of counted classes"],
    isOnMonth: false,
  },
  {
    ...part,
    id: "out-of-office",
    words: "confirmed out of the office",
    sql: "p.bp_source <> 'office'",
    restsOn: ["pressure"],
    isOnMonth: false,
  },
  {
    ...part,
    id: "office-only",
    words: "by office pressure alone",
    sql: "p.bp_source = 'office'",
    restsOn: ["pressure"],
    isOnMonth: false,
  },
  // covered less than 80% of 180 days: the usual limit of adherence by supply, from memory
  {
    ...part,
    id: "supply-gaps",
    words: "without supply of a drug on more than 36 of the last 180 days",
    sql: "p.supply_gap_days > 36",
    restsOn: ["drugs with gaps of supply"],
    isOnMonth: false,
  },
  {
    ...part,
    id: "interfering-drug",
    words: "with a drug that raises the pressure",
    sql: "p.on_interfering_drug",
    restsOn: ["interfering drugs"],
    isOnMonth: false,
  },
] as const
