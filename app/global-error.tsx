"use client"

import { Button } from "./_ui/button"
import { Incident } from "./_ui/incident"
import { Notice } from "./_ui/notice"
import "./globals.css"

export default function GlobalError({ error, retry }: { error: unknown; retry: () => void }) {
  return (
    <html lang="en">
      <body>
        <main>
          <Notice title="Filtrate could not be reached.">
            <p>
              Nothing was changed and nothing is lost. The console in which Filtrate was started says what is
              wrong.
            </p>
            <Incident error={error} />
            <p>
              <Button kind="primary" onClick={retry}>
                Try again
              </Button>
            </p>
          </Notice>
        </main>
      </body>
    </html>
  )
}
