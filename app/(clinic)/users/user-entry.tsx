"use client"

import { useActionState } from "react"
import { isRole, roleWords } from "../../../lib/access/roles"
import type { UserEntry } from "../../../lib/store/users"
import { Button } from "../../_ui/button"
import { keptForm } from "../../_ui/kept-form"
import { change, disable, makeReset, takeFactor } from "./actions"
import { Outcome } from "./outcome"
import { ShapeFields, TextField } from "./shape-fields"
import styles from "./users.module.css"

const nothingYet = { problem: null, link: null }

/** One account and what can be done with it. */
export function UserEntryView({ user }: { user: UserEntry }) {
  const [turned, turn] = useActionState(disable, nothingYet)
  const [made, make] = useActionState(makeReset, nothingYet)
  const [taken, take] = useActionState(takeFactor, nothingYet)
  const takesLinks = !user.isDisabled && !user.isFromProvider
  return (
    <li className={styles.entry}>
      <p>
        <span className={styles.name}>{user.name}</span>{" "}
        <span className={styles.facts}>
          {user.userName}, {wordsOf(user).join(", ")}
        </span>
      </p>
      <div className={styles.acts}>
        {takesLinks ? (
          <form action={make} className={styles.acts}>
            <input type="hidden" name="id" value={user.id} />
            <Button type="submit" name="purpose" value={user.hasPassword ? "reset" : "invitation"}>
              Link for a password
            </Button>
            {user.hasFactor ? (
              <Button type="submit" name="purpose" value="reset-factor">
                Link for password and second factor
              </Button>
            ) : null}
          </form>
        ) : null}
        {user.isFromProvider && user.hasFactor ? (
          <form action={take}>
            <Button type="submit" name="id" value={user.id}>
              Take the second factor away
            </Button>
          </form>
        ) : null}
        <form action={turn}>
          <Which user={user} />
          <Button type="submit" name="to" value={user.isDisabled ? "enabled" : "disabled"}>
            {user.isDisabled ? "Enable" : "Disable"}
          </Button>
        </form>
      </div>
      <Outcome state={made} />
      <Outcome state={turned} />
      <Outcome state={taken} />
      <details>
        <summary>Roles and limits</summary>
        {user.isFromProvider ? (
          <p className={styles.facts}>The clinic's provider gives name and roles anew at each sign-in.</p>
        ) : null}
        <ChangeForm user={user} />
      </details>
    </li>
  )
}

function ChangeForm({ user }: { user: UserEntry }) {
  const [state, send, isSending] = useActionState(change, nothingYet)
  return (
    <form action={send} onSubmit={keptForm(send)} className={styles.form}>
      <Which user={user} />
      <ShapeFields of={user} id={user.id} />
      <TextField id={`${user.id}-reason`} label="Reason" name="reason" isNeeded="yes" />
      <Outcome state={state} />
      <Button type="submit" disabled={isSending}>
        Save
      </Button>
    </form>
  )
}

function Which({ user }: { user: UserEntry }) {
  return (
    <>
      <input type="hidden" name="id" value={user.id} />
      <input type="hidden" name="version" value={user.version} />
    </>
  )
}

function wordsOf(user: UserEntry): string[] {
  return [
    ...user.roles.filter(isRole).map((role) => roleWords[role]),
    ...(user.isFromProvider ? ["through the clinic's provider"] : waitingFor(user)),
    ...(user.isDisabled ? ["disabled"] : []),
  ]
}

function waitingFor(user: UserEntry): string[] {
  return [
    ...(user.hasPassword ? [] : ["no password yet"]),
    ...(user.hasFactor ? [] : ["no second factor yet"]),
  ]
}
