import "@fontsource-variable/source-sans-3/wght.css"
import "@fontsource-variable/source-serif-4/opsz.css"
import type { Metadata, Viewport } from "next"
import { headers } from "next/headers"
import type { ReactNode } from "react"
import "./globals.css"

export const metadata: Metadata = {
  title: { default: "Filtrate", template: "%s, Filtrate" },
  description: "The whole-clinic view for a kidney clinic",
  robots: { index: false, follow: false },
}

export const viewport: Viewport = {
  themeColor: [
    { media: "(prefers-color-scheme: light)", color: "#fbf9f4" },
    { media: "(prefers-color-scheme: dark)", color: "#14191e" },
  ],
}

export default async function RootLayout({ children }: { children: ReactNode }) {
  const nonce = (await headers()).get("x-nonce") ?? undefined
  return (
    <html lang="en">
      <head>
        {/* It has to run before the first paint, or marks would jump to their places. */}
        {/* eslint-disable-next-line @next/next/no-sync-scripts */}
        <script src="/placed.js" nonce={nonce} />
      </head>
      <body>{children}</body>
    </html>
  )
}
