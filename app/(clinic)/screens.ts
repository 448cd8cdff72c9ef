import { may, type Capability } from "../../lib/access/permissions"
import { reviews } from "./reviews"

/** A screen of the masthead; `within` names the addresses beside its own on which it is the present one. */
type ScreenEntry = { href: string; name: string; needs: Capability; within?: readonly string[] }

/** The screens of the masthead, each with what it needs. */
export const screens: readonly ScreenEntry[] = [
  { href: "/", name: "Month", needs: "figures.see" },
  { href: "/outreach", name: "Outreach", needs: "outreach.work" },
  { href: "/patients", name: "Patients", needs: "people.see" },
  {
    href: reviews[0].href,
    name: "Reviews",
    needs: "people.see",
    within: reviews.map((review) => review.href),
  },
  { href: "/measures", name: "Measures", needs: "figures.see" },
  { href: "/imports", name: "Imports", needs: "imports.see" },
  { href: "/audit", name: "Audit log", needs: "audit.see" },
  { href: "/emergencies", name: "Emergencies", needs: "emergency.review" },
  { href: "/users", name: "Users", needs: "users.manage" },
  { href: "/settings", name: "Settings", needs: "settings.see" },
]

/** The first screen someone may open. */
export function homeOf(holder: { roles: readonly string[]; grants: readonly string[] }): string {
  return screens.find((screen) => may(holder, screen.needs))?.href ?? "/account"
}
