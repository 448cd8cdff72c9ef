import qrcode from "qrcode-generator"

export type QrPath = { path: string; size: number }

/** A QR code as the outline of its dark modules, with the quiet margin of four that the standard asks for (ISO/IEC 18004, from memory). */
export function qrPath(text: string): QrPath {
  const margin = 4
  const code = qrcode(0, "M")
  code.addData(text)
  code.make()
  const count = code.getModuleCount()
  const rows = Array.from({ length: count }, (_, row) => row)
  const path = rows
    .flatMap((row) =>
      rows
        .filter((column) => code.isDark(row, column))
        .map((column) => `M${column + margin} ${row + margin}h1v1h-1z`),
    )
    .join("")
  return { path, size: count + 2 * margin }
}
