"use strict";
(() => {
  const page = document.body.dataset.key;
  const form = document.querySelector(".choices");
  const boxes = [...document.querySelectorAll("input[type=checkbox][data-key]")];
  const progress = form.querySelector(".progress");

  // The browser may refuse to keep anything; then ticks last as long as the page.
  const kept = (name) => { try { return localStorage.getItem(name); } catch { return null; } };
  const keep = (name, value) => {
    try { value === null ? localStorage.removeItem(name) : localStorage.setItem(name, value); } catch { /* not kept */ }
  };
  const keyOf = (box) => "crossgrain " + page + " " + box.dataset.key;
  const chosen = (name) => form.querySelector(`input[name=${name}]:checked`)?.value;

  const count = () => {
    const seen = boxes.filter((box) => !box.closest("[hidden]"));
    progress.textContent = `${seen.filter((box) => box.checked).length} of ${seen.length} steps done`;
  };

  // A fabric that has not the width asked for shows the widest below it, or else
  // its narrowest.
  const show = () => {
    const size = chosen("size") ?? "0", width = chosen("width") ?? "all";
    for (const part of document.querySelectorAll("[data-size]")) part.hidden = part.dataset.size !== size;
    for (const group of document.querySelectorAll("[data-group]")) {
      const widths = group.dataset.widths.split(" ").map(Number);
      const below = widths.filter((w) => w <= Number(width));
      const best = below.length ? Math.max(...below) : Math.min(...widths);
      for (const part of group.querySelectorAll("[data-width]")) part.hidden = width !== "all" && Number(part.dataset.width) !== best;
    }
    count();
  };

  for (const box of boxes) {
    box.checked = kept(keyOf(box)) !== null;
    box.addEventListener("change", () => { keep(keyOf(box), box.checked ? "1" : null); count(); });
  }
  for (const name of ["size", "width"]) {
    for (const input of form.querySelectorAll(`input[name=${name}]`)) {
      input.checked = input.value === (kept(`crossgrain ${page} ${name}`) ?? chosen(name));
      input.addEventListener("change", () => { keep(`crossgrain ${page} ${name}`, input.value); show(); });
    }
  }
  form.querySelector(".clear").addEventListener("click", () => {
    if (!confirm("Clear all ticks that are shown?")) return;
    for (const box of boxes) {
      if (box.closest("[hidden]")) continue;
      box.checked = false;
      keep(keyOf(box), null);
    }
    count();
  });
  form.addEventListener("submit", (event) => event.preventDefault());
  form.hidden = false;
  show();
})();
