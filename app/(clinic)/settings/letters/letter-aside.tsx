import Link from "next/link"
import { letterFields } from "../../../../lib/letters/letter-fields"
import { languageName } from "../../../../lib/speech/format"
import { Button } from "../../../_ui/button"
import { AsidePart, ScreenTitle } from "../../../_ui/screen"
import type { ShownLetters } from "./letter-answers"
import styles from "./letter-form.module.css"
import { lettersHref } from "./search-params"

/** What letters are for, the languages there are, and the way to another. */
export function LetterAside({ shown }: { shown: ShownLetters }) {
  const { inForce, language } = shown
  return (
    <>
      <ScreenTitle title="Letters" size="small">
        What the clinic writes when calls do not reach somebody. Filtrate fills letters in and sends none.
      </ScreenTitle>
      <AsidePart title="Languages">
        {inForce.length === 0 ? (
          <p className="soft">None is written yet: the program’s own English letter serves.</p>
        ) : (
          <ul className={styles.languages}>
            {inForce.map((one, at) => (
              <li key={one.language}>
                <Link
                  href={lettersHref(one.language)}
                  prefetch={false}
                  aria-current={one.language === language ? "page" : undefined}
                >
                  {languageName(one.language)}
                </Link>
                {at === 0 ? <span className="soft">, also for other languages</span> : null}
              </li>
            ))}
          </ul>
        )}
        <form action="/settings/letters" className={styles.more}>
          <label>
            Another, by its tag
            <input name="language" placeholder="es" required maxLength={20} autoComplete="off" />
          </label>
          <Button type="submit">Write</Button>
        </form>
      </AsidePart>
    </>
  )
}

/** The fields, and what a letter may hold. */
export function LetterAfter({ isWithValues }: { isWithValues: boolean }) {
  return (
    <>
      <AsidePart title="Fields">
        <dl className={styles.fields}>
          {letterFields.map(({ name, words }) => (
            <div key={name}>
              <dt>{`{${name}}`}</dt>
              <dd>{words}</dd>
            </div>
          ))}
        </dl>
      </AsidePart>
      <AsidePart>
        <p className="soft">
          {isWithValues
            ? "Readings and results stand in letters: the clinic switched that on."
            : "No reading and no result stands in a letter."}{" "}
          <Link href="/settings#letter-values-name" prefetch={false}>
            Clinical values in letters
          </Link>
        </p>
      </AsidePart>
      <AsidePart>
        <p className="soft">
          A letter may be opened by somebody else. Clinicians decide what it says; local policy applies.
        </p>
      </AsidePart>
    </>
  )
}
