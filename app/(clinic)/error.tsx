"use client"

import Link from "next/link"
import { Button } from "../_ui/button"
import { Notice } from "../_ui/notice"

export default function ScreenError({ retry }: { error: unknown; retry: () => void }) {
  return (
    <Notice title="This screen could not be put together.">
      <p>
        Nothing was changed and nothing is lost. <Link href="/imports">Imports</Link> tells whether the last
        import and the figures after it were completed.
      </p>
      <p>
        <Button kind="primary" onClick={retry}>
          Try again
        </Button>
      </p>
    </Notice>
  )
}
