"use client"

import Link, { useLinkStatus } from "next/link"
import { usePathname } from "next/navigation"
import styles from "./shell.module.css"

type NavEntry = { href: string; name: string; within?: readonly string[] | undefined }

/** The screens there are, the present one marked. */
export function Nav({ screens }: { screens: readonly NavEntry[] }) {
  const path = usePathname()
  return (
    <nav aria-label="Screens" className={styles.nav}>
      {screens.map((screen) => (
        <Link
          key={screen.href}
          href={screen.href}
          prefetch={false}
          aria-current={isPresent(path, screen) ? "page" : undefined}
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

function isPresent(path: string, { href, within = [] }: NavEntry): boolean {
  return [href, ...within].some((address) => isWithin(path, address))
}

function isWithin(path: string, href: string): boolean {
  return href === "/" ? path === "/" : path === href || path.startsWith(`${href}/`)
}
