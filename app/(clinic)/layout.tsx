import Link from "next/link"
import { redirect } from "next/navigation"
import type { ReactNode } from "react"
import { sessionLimits } from "../../lib/access/session-limits"
import { plainToday } from "../../lib/domain/plain-date"
import { day } from "../../lib/speech/format"
import { may } from "../../lib/access/permissions"
import { isWhole } from "../../lib/access/scope"
import { callerScope, currentEmergency } from "../_http/ask"
import { currentCaller } from "../_http/require-user"
import { AccountCorner } from "./account-corner"
import { EmergencyBanner } from "./emergency/banner"
import { instantInFull } from "./imports/import-words"
import { KeepAlive } from "./keep-alive"
import { Nav } from "./nav"
import { screensOf } from "./screens"
import styles from "./shell.module.css"
import { currentSnapshot } from "./snapshot"
import { clinicTimeZone } from "./time-zone"

export const dynamic = "force-dynamic"

export default async function ClinicLayout({ children }: { children: ReactNode }) {
  const caller = await currentCaller()
  if (!caller) redirect("/sign-in")
  const [snapshot, emergency, timeZone] = await Promise.all([
    currentSnapshot(),
    currentEmergency(),
    clinicTimeZone(),
  ])
  const isLimited = !isWhole(await callerScope())
  return (
    <div className={styles.shell}>
      <a href="#matter" className={styles.skip}>
        Skip to the figures
      </a>
      <header className={styles.masthead}>
        <Link href="/" className={styles.name} prefetch={false}>
          Filtrate
        </Link>
        <Nav screens={screensOf(caller).map(({ href, name, within }) => ({ href, name, within }))} />
        <div className={styles.corner}>
          {snapshot ? (
            <p className={styles.clinic}>
              {snapshot.clinicName}
              {snapshot.isDemo ? ", demo" : null}
            </p>
          ) : null}
          {isLimited && may(caller, "emergency.open") ? (
            <Link href="/emergency" prefetch={false}>
              Emergency access
            </Link>
          ) : null}
          <AccountCorner caller={caller} />
        </div>
      </header>
      {emergency ? <EmergencyBanner until={instantInFull(emergency.endsAt, timeZone)} /> : null}
      <main id="matter" tabIndex={-1} className={styles.matter}>
        {children}
      </main>
      <KeepAlive idleMs={sessionLimits.idleMs} />
      <footer className={styles.footer}>
        <p>
          Filtrate supports licensed clinicians and local policy and never replaces them. It is no alarm
          system: what is urgent reaches the clinic by its own ways.
        </p>
        <p className={styles.onPaper}>
          {snapshot ? `${snapshot.clinicName}. ` : null}Opened {day(plainToday(new Date(), timeZone))}.
        </p>
        <p className={styles.onPaper}>
          A print may name people: it is kept and destroyed as local policy for health records says.
        </p>
      </footer>
    </div>
  )
}
