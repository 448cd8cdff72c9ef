import Link from "next/link"
import type { ReactNode } from "react"
import styles from "./let-go.module.css"

/** One thing that a list is narrowed to; following it lets go. */
export function LetGo(props: {
  href: string
  /** Whether the page stays where it is scrolled to. */
  isKeptInPlace?: true
  children: ReactNode
}) {
  return (
    <Link href={props.href} prefetch={false} scroll={!props.isKeptInPlace} className={styles.narrowed}>
      {props.children} <span aria-hidden="true">×</span>
      <span className="visually-hidden">, let go</span>
    </Link>
  )
}
