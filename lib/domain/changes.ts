export const changeKinds = ["gained", "lost", "joined", "left"] as const

export type ChangeKind = (typeof changeKinds)[number]

/**
 * Why somebody gained, lost, joined or left. Of those in both denominators: news (a fact dated after the earlier day) or
 * time (none: a fact fell out of its window, or a term ended). Of those who joined or left: the panel, an exclusion, a
 * documented reason, the population, or having been measured.
 */
export const changeCauses = [
  "news",
  "time",
  "panel",
  "exclusion",
  "exception",
  "population",
  "measured",
] as const

export type ChangeCause = (typeof changeCauses)[number]
