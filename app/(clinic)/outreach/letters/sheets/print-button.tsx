"use client"

import { Button } from "../../../../_ui/button"

/** Opens the browser's own printing. */
export function PrintButton() {
  return (
    <Button kind="primary" onClick={() => window.print()}>
      Print
    </Button>
  )
}
