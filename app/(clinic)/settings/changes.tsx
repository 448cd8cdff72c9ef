import Link from "next/link"
import { isSettingKey } from "../../../lib/domain/setting-proposal"
import { settingName, settingText, settingWords } from "../../../lib/domain/setting-values"
import type { Settings } from "../../../lib/domain/settings"
import type { SettingChange } from "../../../lib/store/settings"
import { Theme } from "../../_ui/screen"
import { instantInFull } from "../imports/import-words"
import { settingsHref } from "./search-params"
import styles from "./changes.module.css"

/** Every change there was: when, by whom, why, and from what to what; the way back is a proposal like any other. */
export function Changes(props: { changes: SettingChange[]; settings: Settings; timeZone: string }) {
  const { changes, settings, timeZone } = props
  return (
    <Theme id="changes" title="Changes">
      {changes.length === 0 ? <p className={styles.none}>No setting has been changed yet.</p> : null}
      <ol className={styles.changes}>
        {changes.map((change) => (
          <li key={change.id}>
            <p className={styles.when}>
              {instantInFull(change.madeAt, timeZone)}, {byWhom(change)}
            </p>
            <ul>
              {valuesOf(change).map(({ key, before, after }) => (
                <li key={key}>
                  {settingName(key)}: <strong>{settingWords(key, after)}</strong>, before{" "}
                  {settingWords(key, before)}
                </li>
              ))}
            </ul>
            <p className={styles.reason}>Reason: {change.reason}</p>
            {isBack(change, settings) ? null : (
              <Link href={settingsHref(earlierTexts(change))} prefetch={false}>
                Propose what stood before
              </Link>
            )}
          </li>
        ))}
      </ol>
    </Theme>
  )
}

function byWhom(change: SettingChange): string {
  return change.origin === "site" ? "on the site" : `by command, ${change.madeBy ?? "user not known"}`
}

function valuesOf(change: SettingChange) {
  return Object.entries(change.after).flatMap(([key, after]) =>
    isSettingKey(key) ? [{ key, before: change.before[key] ?? null, after }] : [],
  )
}

function isBack(change: SettingChange, settings: Settings): boolean {
  return valuesOf(change).every(({ key, before }) => settings[key] === before)
}

function earlierTexts(change: SettingChange) {
  return Object.fromEntries(valuesOf(change).map(({ key, before }) => [key, settingText(before)]))
}
