import Link from "next/link"
import type { ReactNode } from "react"
import styles from "./people-link.module.css"

/** A number, or a few words with it, that opens the people behind it. Zero opens nobody and is plain text. */
export function PeopleLink(props: { href: string; number: number; children: ReactNode }) {
  if (props.number === 0) return <span>{props.children}</span>
  return (
    <Link href={props.href} prefetch={false} className={styles.people}>
      {props.children}
    </Link>
  )
}
