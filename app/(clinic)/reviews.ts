import { may, type Capability } from "../../lib/access/permissions"

/** A review of people that a clinician goes through: its address and name, and what whoever decides on it may do. */
export type Review = { readonly href: string; readonly name: string; readonly decidedBy: Capability }

/** The reviews in the order in which they are offered. */
export const reviews = {
  protection: { href: "/protection", name: "Protection", decidedBy: "decisions.treat" },
  sodium: { href: "/sodium", name: "Sodium", decidedBy: "decisions.make" },
  severalClasses: { href: "/several-classes", name: "Several classes", decidedBy: "decisions.treat" },
  startingAndStopping: {
    href: "/starting-and-stopping",
    name: "Starting and stopping",
    decidedBy: "decisions.treat",
  },
} as const satisfies Record<string, Review>

export const reviewsInOrder: readonly Review[] = Object.values(reviews)

/** The review that the masthead opens: the first on which somebody decides, else the first. */
export function firstReviewOf(holder: Parameters<typeof may>[0]): Review {
  return reviewsInOrder.find((review) => may(holder, review.decidedBy)) ?? reviews.protection
}
