import Link from "next/link"
import styles from "./review-links.module.css"
import { reviews } from "./reviews"

/** The other reviews beside the one that is open, in the month that is chosen; `month` is null for the running one. */
export function ReviewLinks({ open, month }: { open: string; month: string | null }) {
  const query = month === null ? "" : `?month=${month}`
  return (
    <ul className={styles.links} aria-label="Reviews">
      {reviews.map((review) => (
        <li key={review.href}>
          <Link
            href={`${review.href}${query}`}
            prefetch={false}
            aria-current={review.href === open ? "page" : undefined}
          >
            {review.name}
          </Link>
        </li>
      ))}
    </ul>
  )
}
