import type { Metadata } from "next"
import { isRole, roleWords } from "../../../lib/access/roles"
import { findAccountById } from "../../../lib/store/accounts"
import { store } from "../../../lib/store/client"
import { countRecoveryCodes } from "../../../lib/store/factors"
import { listPasskeys } from "../../../lib/store/passkeys"
import { listSessions } from "../../../lib/store/own-sessions"
import { requireScreenUser } from "../../_http/require-user"
import { counted } from "../../../lib/speech/format"
import { Button } from "../../_ui/button"
import { AsidePart, Screen, ScreenTitle, Theme } from "../../_ui/screen"
import { instantInFull } from "../imports/import-words"
import { clinicTimeZone } from "../time-zone"
import { endOne, signOutEverywhere } from "./actions"
import styles from "./account.module.css"
import { CodesForm } from "./codes-form"
import { Passkeys } from "./passkeys"
import { PasswordForm } from "./password-form"

export const metadata: Metadata = { title: "Account" }

export default async function AccountPage() {
  const caller = await requireScreenUser("account.own")
  const { userId, isDemo } = caller
  const [sessions, codes, account, passkeys, timeZone] = await Promise.all([
    listSessions(store(), { userId, now: new Date() }),
    countRecoveryCodes(store(), userId),
    findAccountById(store(), userId),
    listPasskeys(store(), userId),
    clinicTimeZone(),
  ])
  return (
    <Screen
      aside={
        <>
          <ScreenTitle title="Account" />
          <AsidePart>
            <p>
              {caller.name},{" "}
              {caller.roles
                .filter(isRole)
                .map((role) => roleWords[role])
                .join(" and ")}
              .
            </p>
          </AsidePart>
          {isDemo ? (
            <AsidePart>
              <p>An invented person of the demo has neither a password nor a second factor to prove.</p>
            </AsidePart>
          ) : null}
          {account?.isFromProvider ? (
            <AsidePart>
              <p>The clinic's provider lets this account in, and gives its name and roles.</p>
            </AsidePart>
          ) : null}
        </>
      }
    >
      {account?.hasFactor ? (
        <Theme title="Recovery codes" id="codes">
          <div className={styles.part}>
            <p>
              {codes === 0
                ? "There are no recovery codes."
                : `${counted(codes, "code is", "codes are")} left.`}{" "}
              Each signs in once in place of the authenticator app, for when the phone is lost.
            </p>
            <CodesForm />
          </div>
        </Theme>
      ) : null}
      {account && !account.isFromProvider ? (
        <Theme title="Passkeys" id="passkeys">
          <Passkeys passkeys={passkeys} timeZone={timeZone} />
        </Theme>
      ) : null}
      {account && !account.isFromProvider ? (
        <Theme title="Password" id="password">
          <div className={styles.part}>
            <PasswordForm userName={caller.userName} />
          </div>
        </Theme>
      ) : null}
      <Theme title="Where this account is signed in" id="sessions">
        <ol className={styles.list}>
          {sessions.map((one) => (
            <li key={one.id} className={styles.entry}>
              <p>
                Since {instantInFull(one.createdAt, timeZone)}, last used{" "}
                {instantInFull(one.lastSeenAt, timeZone)}
                {one.address === "" ? null : `, from ${one.address}`}
                {one.id === caller.session.id ? ", here" : null}
                <br />
                <span className="soft">{one.agent}</span>
              </p>
              {one.id === caller.session.id ? null : (
                <form action={endOne}>
                  <Button type="submit" name="session" value={one.id}>
                    End
                  </Button>
                </form>
              )}
            </li>
          ))}
        </ol>
        <form action={signOutEverywhere} className={styles.part}>
          <Button type="submit">Sign out everywhere</Button>
        </form>
      </Theme>
    </Screen>
  )
}
