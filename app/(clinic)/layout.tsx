import Link from "next/link"
import type { ReactNode } from "react"
import { Nav } from "./nav"
import styles from "./shell.module.css"
import { currentSnapshot } from "./snapshot"

export const dynamic = "force-dynamic"

export default async function ClinicLayout({ children }: { children: ReactNode }) {
  const snapshot = await currentSnapshot()
  return (
    <div className={styles.shell}>
      <a href="#matter" className={styles.skip}>
        Skip to the figures
      </a>
      <header className={styles.masthead}>
        <Link href="/" className={styles.name} prefetch={false}>
          Filtrate
        </Link>
        <Nav />
        {snapshot ? (
          <p className={styles.clinic}>
            {snapshot.clinicName}
            {snapshot.isDemo ? ", demo" : null}
          </p>
        ) : null}
      </header>
      <main id="matter" tabIndex={-1} className={styles.matter}>
        {children}
      </main>
      <footer className={styles.footer}>
        <p>
          Filtrate supports licensed clinicians and local policy and never replaces them. It is no alarm
          system: what is urgent reaches the clinic by its own ways.
        </p>
      </footer>
    </div>
  )
}
