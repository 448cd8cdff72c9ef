import Link from "next/link"
import { hrefOf } from "../_ui/href"
import styles from "./review-links.module.css"
import { reviewsInOrder, type Review } from "./reviews"

/** The other reviews beside the one that is open, in the month that is chosen; `month` is null for the running one. */
export function ReviewLinks({ open, month }: { open: Review; month: string | null }) {
  return (
    <ul className={styles.links} aria-label="Reviews">
      {reviewsInOrder.map((review) => (
        <li key={review.href}>
          <Link
            href={hrefOf(review.href, { month })}
            prefetch={false}
            aria-current={review.href === open.href ? "page" : undefined}
          >
            {review.name}
          </Link>
        </li>
      ))}
    </ul>
  )
}
