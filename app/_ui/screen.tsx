import type { ReactNode } from "react"
import styles from "./screen.module.css"

/**
 * A screen: the narrow column that says where and when we are, and the matter beside it (below it on a phone).
 * `after` belongs to the narrow column too, but on a phone stands under the matter.
 */
export function Screen(props: { aside: ReactNode; after?: ReactNode; children: ReactNode }) {
  return (
    <div className={styles.screen}>
      <div className={styles.aside}>{props.aside}</div>
      <div className={styles.matter}>{props.children}</div>
      {props.after ? <div className={styles.after}>{props.after}</div> : null}
    </div>
  )
}

/** The name of the screen and, under it, in soft ink, the day it speaks of. */
export function ScreenTitle(props: { title: string; size?: "small"; children?: ReactNode }) {
  const { title, children } = props
  return (
    <header className={props.size === "small" ? `${styles.title} ${styles.small}` : styles.title}>
      <h1>{title}</h1>
      {children ? <div className={styles.when}>{children}</div> : null}
    </header>
  )
}

/** One part of the left column, set off by a hairline. */
export function AsidePart({ title, children }: { title?: string; children: ReactNode }) {
  return (
    <section className={styles.part}>
      {title ? <h2 className={styles.partTitle}>{title}</h2> : null}
      {children}
    </section>
  )
}

/** A part of the matter under a small heading and a firm rule. */
export function Theme(props: { title: string; id?: string; note?: ReactNode; children: ReactNode }) {
  return (
    <section
      className={styles.theme}
      id={props.id}
      aria-labelledby={props.id ? `${props.id}-title` : undefined}
    >
      <div className={styles.themeHead}>
        <h2 className={styles.themeTitle} id={props.id ? `${props.id}-title` : undefined}>
          {props.title}
        </h2>
        {props.note ? <div className={styles.note}>{props.note}</div> : null}
      </div>
      {props.children}
    </section>
  )
}
