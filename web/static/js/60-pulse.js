// Another device may save a check: a page that shows what is lit asks now and
// then whether the journal changed, and loads itself anew when it did.
(() => {
  if (!document.body.hasAttribute("data-refresh")) return;
  const seen = document.body.dataset.revision;
  const away = document.querySelector("[data-away]");
  const look = async () => {
    if (document.hidden) return;
    try {
      const r = await fetch("/pulse");
      if (!r.ok) return;
      if (away) away.hidden = true;
      if ((await r.text()).trim() !== seen) location.reload();
    } catch (e) { if (away) away.hidden = false; }
  };
  setInterval(look, 20000);
  document.addEventListener("visibilitychange", look);
})();
