import Link from "next/link"
import { count } from "../../lib/speech/format"
import styles from "./pager.module.css"

/** Which part of a long list is shown, with the ways to the part before and after. */
export function Pager(props: {
  /** The page as it stands in an address: null for the first, which is the default. */
  page: number | null
  size: number
  total: number
  hrefOf: (page: number | null) => string
}) {
  const { size, total } = props
  const page = props.page ?? 1
  const pages = Math.max(1, Math.ceil(total / size))
  const first = (page - 1) * size + 1
  return (
    <nav aria-label="Pages of the list" className={styles.pager}>
      <span>
        {count(first)} to {count(Math.min(page * size, total))} of {count(total)}
      </span>
      {page > 1 ? (
        <Link href={props.hrefOf(page === 2 ? null : page - 1)} prefetch={false}>
          Before
        </Link>
      ) : null}
      {page < pages ? (
        <Link href={props.hrefOf(page + 1)} prefetch={false}>
          After
        </Link>
      ) : null}
    </nav>
  )
}
