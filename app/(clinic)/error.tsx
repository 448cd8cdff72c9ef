"use client"

import Link from "next/link"
import { Button } from "../_ui/button"
import { Incident } from "../_ui/incident"
import { Notice } from "../_ui/notice"

export default function ScreenError({ error, retry }: { error: unknown; retry: () => void }) {
  return (
    <Notice title="This screen could not be put together.">
      <p>
        Nothing was changed and nothing is lost. <Link href="/imports">Imports</Link> tells whether the last
        import and the figures after it were completed.
      </p>
      <Incident error={error} />
      <p>
        <Button kind="primary" onClick={retry}>
          Try again
        </Button>
      </p>
    </Notice>
  )
}
