import Link from "next/link"
import type { ComponentProps } from "react"
import styles from "./button.module.css"

type Kind = "primary" | "quiet"

/** A button is a verb. `primary` once a screen, `quiet` for the rest. */
export function Button({ kind = "quiet", ...props }: ComponentProps<"button"> & { kind?: Kind }) {
  return <button type="button" {...props} className={`${styles.button} ${styles[kind]}`} />
}

/** A link to another screen or view that reads as a button. */
export function ButtonLink({ kind = "quiet", ...props }: ComponentProps<typeof Link> & { kind?: Kind }) {
  return <Link prefetch={false} {...props} className={`${styles.button} ${styles[kind]}`} />
}

/** A link that the browser itself follows, past what the framework does: it leads out of the site. */
export function LeavingLink({ kind = "quiet", ...props }: ComponentProps<"a"> & { kind?: Kind }) {
  return <a {...props} className={`${styles.button} ${styles[kind]}`} />
}

/** A file that the browser saves, such as a CSV of a list. */
export function DownloadLink({ kind = "quiet", ...props }: ComponentProps<"a"> & { kind?: Kind }) {
  return <a download {...props} className={`${styles.button} ${styles[kind]}`} />
}
