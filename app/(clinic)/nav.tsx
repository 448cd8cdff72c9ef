"use client"

import Link, { useLinkStatus } from "next/link"
import { usePathname } from "next/navigation"
import styles from "./shell.module.css"

/** The screens there are, the present one marked. */
export function Nav({ screens }: { screens: readonly { href: string; name: string }[] }) {
  const path = usePathname()
  return (
    <nav aria-label="Screens" className={styles.nav}>
      {screens.map((screen) => (
        <Link
          key={screen.href}
          href={screen.href}
          prefetch={false}
          aria-current={isWithin(path, screen.href) ? "page" : undefined}
        >
          {screen.name}
          <Coming />
        </Link>
      ))}
    </nav>
  )
}

/** A hairline under the pressed word until its screen is there. */
function Coming() {
  const { pending } = useLinkStatus()
  return <span aria-hidden="true" className={pending ? styles.coming : undefined} />
}

function isWithin(path: string, href: string): boolean {
  return href === "/" ? path === "/" : path === href || path.startsWith(`${href}/`)
}
