// Another device may save a check: a page that shows what is lit asks now and
// then whether the journal changed, and takes its new content in place. It is
// not loaded anew, since a browser lets no sound out of a page that nobody has
// touched: the bell stays in its place.
(() => {
  if (!document.body.hasAttribute("data-refresh")) return;
  let seen = document.body.dataset.revision;
  let drawn = Date.now();
  const away = on => { const el = document.querySelector("[data-away]"); if (el) el.hidden = !on; };

  const swap = async revision => {
    const r = await fetch(location.href);
    if (!r.ok) return;
    const fresh = new DOMParser().parseFromString(await r.text(), "text/html").querySelector("main");
    const main = document.querySelector("main");
    const bell = main.querySelector("[data-bell]"), place = fresh.querySelector("[data-bell]");
    if (!bell !== !place) { location.reload(); return; }
    if (bell) place.replaceWith(bell);
    const held = main.contains(document.activeElement) ? document.activeElement.getAttribute("href") : null;
    main.replaceWith(fresh);
    if (held) { const el = fresh.querySelector("a[href='" + CSS.escape(held) + "']") || fresh.querySelector("a"); if (el) el.focus(); }
    seen = revision;
    drawn = Date.now();
    document.dispatchEvent(new CustomEvent("rimward:drawn"));
  };

  const look = async () => {
    if (document.hidden) return;
    try {
      const r = await fetch("/pulse");
      if (!r.ok) return;
      away(false);
      const revision = (await r.text()).trim();
      // Ten minutes on, another check may have fallen due.
      if (revision !== seen || Date.now() - drawn > 600000) await swap(revision);
    } catch (e) { away(true); }
  };
  setInterval(look, 20000);
  document.addEventListener("visibilitychange", look);
})();
