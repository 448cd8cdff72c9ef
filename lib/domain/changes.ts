export const changeKinds = ["gained", "lost", "joined", "left"] as const

export type ChangeKind = (typeof changeKinds)[number]

/** What changed since a month was closed: a fact came late or was corrected, or something was set otherwise. */
export const causesSinceClosing = ["late", "setting"] as const

/**
 * Why somebody gained, lost, joined or left. Of those in both denominators: news (a fact dated after the earlier day) or
 * time (none: a fact fell out of its window, or a term ended). Of those who joined or left: the panel, an exclusion, a
 * documented reason, the population, or having been measured. Of anybody, where a month was closed and the change is none
 * when both are known as today: late (a fact that came or was corrected after it was closed) or setting (one changed since).
 */
export const changeCauses = [
  "news",
  "time",
  "panel",
  "exclusion",
  "exception",
  "population",
  "measured",
  ...causesSinceClosing,
] as const

export type ChangeCause = (typeof changeCauses)[number]
