/** A review of people that a clinician goes through: its address and name. */
export type Review = { readonly href: string; readonly name: string }

/** The reviews in the order in which they are offered. */
export const reviews = {
  protection: { href: "/protection", name: "Protection" },
  sodium: { href: "/sodium", name: "Sodium" },
  severalClasses: { href: "/several-classes", name: "Several classes" },
  startingAndStopping: {
    href: "/starting-and-stopping",
    name: "Starting and stopping",
  },
} as const satisfies Record<string, Review>

export const reviewsInOrder: readonly Review[] = Object.values(reviews)
