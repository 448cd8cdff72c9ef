/** The words a measure speaks about one patient on one day, in the order in which they are tried. */
export const standings = ["outside", "excluded", "unknown", "met", "exception", "not met"] as const

export type Standing = (typeof standings)[number]
