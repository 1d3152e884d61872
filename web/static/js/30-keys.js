// Keyboard comfort on forms with rows: Enter goes to the next row's first
// field, and saves from the last; arrows move up and down a column; Ctrl+Enter
// saves from anywhere. Tab does what it always does.
(() => {
  for (const form of document.querySelectorAll("form[data-rows]")) {
    const rows = () => [...form.querySelectorAll("[data-row]")];
    const fields = row => [...row.querySelectorAll("input:not([type=hidden]),select,textarea")];
    const go = el => { if (el) { el.focus(); if (el.select && el.type === "text") el.select(); } return !!el; };
    const down = (row, step, place) => {
      const all = rows();
      const next = all[all.indexOf(row) + step];
      return next ? go(fields(next)[place]) : false;
    };
    form.addEventListener("keydown", e => {
      const row = e.target.closest("[data-row]");
      if (e.key === "Enter" && (e.ctrlKey || e.metaKey)) { e.preventDefault(); form.requestSubmit(); return; }
      if (!row || e.target.tagName === "TEXTAREA" || e.target.tagName === "BUTTON" || e.target.tagName === "SUMMARY") return;
      const place = fields(row).indexOf(e.target);
      if (e.key === "Enter") {
        e.preventDefault();
        if (!down(row, 1, 0)) go(form.querySelector("button[type=submit].main"));
      } else if (e.target.tagName === "INPUT" && e.target.type === "text" && (e.key === "ArrowDown" || e.key === "ArrowUp")) {
        if (down(row, e.key === "ArrowDown" ? 1 : -1, place)) e.preventDefault();
      }
    });
  }
  const wrong = document.querySelector("[aria-invalid=true]") || document.querySelector("[data-focus]");
  if (wrong) wrong.focus(); else {
    const first = document.querySelector("[autofocus]");
    if (first && document.activeElement === document.body) first.focus();
  }
  for (const el of document.querySelectorAll("[data-tick-all]")) {
    el.addEventListener("change", () => {
      for (const box of document.querySelectorAll("input[type=checkbox][name='" + el.dataset.tickAll + "']")) box.checked = el.checked;
    });
  }
  for (const el of document.querySelectorAll("select[data-goes]")) el.addEventListener("change", () => el.form.requestSubmit());
})();
