// Says beside a quantity how it was understood, by asking the server, which
// is the only one that reads quantities.
(() => {
  const timers = new Map();
  const say = (el, text, bad) => {
    const out = el.form && el.form.querySelector("[data-read='" + CSS.escape(el.name) + "']");
    if (!out) return;
    out.textContent = text;
    out.classList.toggle("problem", bad);
  };
  const plain = text => /^\s*\d*[.]?\d*\s*$/.test(text);
  const ask = async el => {
    const text = el.value;
    if (!text.trim() || plain(text)) { say(el, "", false); return; }
    try {
      const r = await fetch("/understood?" + new URLSearchParams({ kind: el.dataset.quantity, text }));
      const body = await r.text();
      if (el.value === text) say(el, r.ok ? (body ? "read as " + body : "") : body, !r.ok && r.status === 422);
    } catch (e) { /* the server is away; it will say so on saving */ }
  };
  document.addEventListener("input", e => {
    const el = e.target;
    if (!el.dataset || !el.dataset.quantity) return;
    clearTimeout(timers.get(el));
    timers.set(el, setTimeout(() => ask(el), 300));
  });
})();
