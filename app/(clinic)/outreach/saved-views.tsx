import Link from "next/link"
import type { SavedView } from "../../../lib/store/outreach-views"
import { dropView } from "./view-actions"
import { isNarrowed, outreachHref, searchOf, viewOf, type OutreachView } from "./search-params"
import { ViewForm } from "./view-form"
import styles from "./views.module.css"

/** The lists somebody comes back to: everyone's, their own, and those they saved. */
export function SavedViews({ views, view }: { views: readonly SavedView[]; view: OutreachView }) {
  const here = searchOf(view)
  const own = views.some((one) => one.search === here)
  const fixed = [
    { name: "Everyone’s day", href: outreachHref({}) },
    { name: "Mine", href: outreachHref({ whose: "mine" }) },
  ]
  return (
    <>
      <ul className={styles.views}>
        {fixed.map(({ name, href }) => (
          <li key={href}>
            <Link href={href} prefetch={false} aria-current={href === outreachHref({ ...view, after: null })}>
              {name}
            </Link>
          </li>
        ))}
        {views.map((one) => (
          <li key={one.id}>
            <Link href={outreachHref(viewOf(one.search))} prefetch={false} aria-current={one.search === here}>
              {one.name}
            </Link>
            <form action={dropView}>
              <input type="hidden" name="id" value={one.id} />
              <button type="submit" aria-label={`Remove the view ${one.name}`} className={styles.drop}>
                Remove
              </button>
            </form>
          </li>
        ))}
      </ul>
      {own || (!isNarrowed(view) && view.show === "today") ? null : <ViewForm search={here} />}
    </>
  )
}
