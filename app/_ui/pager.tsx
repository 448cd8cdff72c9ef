import Link from "next/link"
import { count } from "../../lib/speech/format"
import styles from "./pager.module.css"

/** Which part of a long list is shown, with the ways to the part before and after. */
export function Pager(props: {
  page: number
  size: number
  total: number
  hrefOf: (page: number) => string
}) {
  const { page, size, total } = props
  const pages = Math.max(1, Math.ceil(total / size))
  const first = (page - 1) * size + 1
  return (
    <nav aria-label="Pages of the list" className={styles.pager}>
      <span>
        {count(first)} to {count(Math.min(page * size, total))} of {count(total)}
      </span>
      {page > 1 ? (
        <Link href={props.hrefOf(page - 1)} prefetch={false}>
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
