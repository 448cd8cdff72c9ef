import Link from "next/link"
import { ButtonLink } from "../_ui/button"
import { Notice } from "../_ui/notice"

/** What a screen says before the first extract has been brought in. */
export function EmptyClinic() {
  return (
    <Notice title="No extract has been brought in yet.">
      <p>
        Here the clinic will be told month by month: how many have their pressure at target, who is above it
        on three or more drug classes, who has protein in the urine and takes neither an ACE inhibitor nor an
        ARB, and how much sodium people eat. Each number opens its people.
      </p>
      <p>
        Bring in the clinic&rsquo;s extract as a folder or a zip on the <Link href="/imports">Imports</Link>{" "}
        screen, or from a console:
      </p>
      <p>
        <code>npx filtrate import FOLDER</code>
      </p>
      <p>
        <ButtonLink kind="primary" href="/imports">
          Bring in an extract
        </ButtonLink>
      </p>
    </Notice>
  )
}
