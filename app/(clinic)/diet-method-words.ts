const words: Readonly<Record<string, string>> = {
  recall_24h: "24-hour recall",
  food_record: "food record",
  food_frequency: "food frequency",
  urine_24h: "24-hour urine",
}

/** Methods of asking about diet as they are said, "24-hour recall and food record" of `recall_24h and food_record`. */
export function dietMethodWords(methods: string): string {
  return methods
    .split(" and ")
    .map((method) => words[method] ?? method.replaceAll("_", " "))
    .join(" and ")
}
