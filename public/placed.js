// Gives the elements that name their place (app/_ui/placed.ts) that place, before anything is painted. Styles that a script
// sets are allowed by the content security policy, where style attributes of the page are not.
;(() => {
  const sides = ["left", "right", "top", "bottom", "width", "height", "flex-grow"]

  function place(element) {
    const named = new Map(element.dataset.placed.split(";").map((one) => one.split(":")))
    for (const side of sides) {
      if (named.has(side)) element.style.setProperty(side, named.get(side))
      else element.style.removeProperty(side)
    }
  }

  function placeUnder(node) {
    if (!(node instanceof Element)) return
    if (node.matches("[data-placed]")) place(node)
    node.querySelectorAll("[data-placed]").forEach(place)
  }

  new MutationObserver((changes) => {
    for (const change of changes) {
      if (change.type === "attributes" && change.target.matches("[data-placed]")) place(change.target)
      else change.addedNodes.forEach(placeUnder)
    }
  }).observe(document, { subtree: true, childList: true, attributes: true, attributeFilter: ["data-placed"] })
})()
