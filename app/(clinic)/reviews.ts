/** A review of people that a clinician goes through: its address and name. */
type Review = { readonly href: string; readonly name: string }

/** The reviews in the order in which they are offered; the masthead opens the first. */
export const reviews: readonly [Review, ...Review[]] = [
  { href: "/protection", name: "Protection" },
  { href: "/sodium", name: "Sodium" },
  { href: "/several-classes", name: "Several classes" },
  { href: "/starting-and-stopping", name: "Starting and stopping" },
]
