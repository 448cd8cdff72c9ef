import { may, type Capability } from "../../lib/access/permissions"
import { firstReviewOf, reviewsInOrder } from "./reviews"

type Holder = { roles: readonly string[]; grants: readonly string[]; staffId: string | null }

type ScreenEntry = {
  href: string
  name: string
  needs: Capability
  /** The addresses beside its own on which it is the present one. */
  within?: readonly string[]
  /** Whether it is for accounts that are linked to somebody on the staff list. */
  isForStaff?: true
}

/** The screens of the masthead, each with what it needs. */
const screensFor = (holder: Holder): readonly ScreenEntry[] => [
  { href: "/", name: "Month", needs: "figures.see" },
  { href: "/my-patients", name: "My patients", needs: "people.see", isForStaff: true },
  { href: "/outreach", name: "Outreach", needs: "outreach.work" },
  { href: "/patients", name: "Patients", needs: "people.see" },
  {
    href: firstReviewOf(holder).href,
    name: "Reviews",
    needs: "people.see",
    within: reviewsInOrder.map((review) => review.href),
  },
  { href: "/measures", name: "Measures", needs: "figures.see" },
  { href: "/imports", name: "Imports", needs: "imports.see" },
  { href: "/audit", name: "Audit log", needs: "audit.see" },
  { href: "/emergencies", name: "Emergencies", needs: "emergency.review" },
  { href: "/users", name: "Users", needs: "users.manage" },
  { href: "/settings", name: "Settings", needs: "settings.see" },
]

/** The screens of somebody's masthead, in their order. */
export function screensOf(holder: Holder): ScreenEntry[] {
  return screensFor(holder).filter(
    (screen) => may(holder, screen.needs) && (!screen.isForStaff || holder.staffId !== null),
  )
}

/** The first screen someone may open. */
export function homeOf(holder: Holder): string {
  return screensOf(holder)[0]?.href ?? "/account"
}
