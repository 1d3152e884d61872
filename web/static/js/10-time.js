// Timers. The server's moment comes with the page, so a clock that is wrong on
// this device shifts nothing; every tick is worked out anew from Date.now(), so
// a laptop that slept is right again at once.
(() => {
  const root = document.documentElement;
  const shift = Number(root.dataset.now || Date.now()) - Date.now();
  window.rimwardNow = () => Date.now() + shift;
  const zone = root.dataset.zone || "UTC";
  const two = n => String(n).padStart(2, "0");
  const span = minutes => minutes < 60 ? minutes + " min" : Math.floor(minutes / 60) + " h " + two(minutes % 60);
  let format;
  try {
    format = new Intl.DateTimeFormat("en-GB", { timeZone: zone, weekday: "short", day: "numeric", month: "short", hour: "2-digit", minute: "2-digit", hour12: false });
  } catch (e) { format = null; }

  const tickClock = now => {
    if (!format) return;
    const p = Object.fromEntries(format.formatToParts(new Date(now)).map(x => [x.type, x.value]));
    for (const el of document.querySelectorAll("[data-clock]"))
      el.textContent = `${p.weekday} ${p.day} ${p.month}, ${p.hour}:${p.minute}`;
  };
  const tickSince = now => {
    for (const el of document.querySelectorAll("[data-since]"))
      el.textContent = span(Math.max(0, Math.floor((now - Number(el.dataset.since)) / 60000)));
  };
  const tickDue = now => {
    for (const el of document.querySelectorAll("[data-due]")) {
      const ms = Number(el.dataset.due) - now;
      const late = ms <= 0;
      const minutes = late ? Math.floor(-ms / 60000) : Math.ceil(ms / 60000);
      el.textContent = late ? (minutes < 1 ? "now" : span(minutes) + " late") : "in " + span(minutes);
      el.classList.toggle("due", late);
      const tile = el.closest("[data-tile]");
      if (tile) tile.classList.toggle("is-late", late);
    }
  };
  const tickReached = now => {
    for (const el of document.querySelectorAll("[data-until]"))
      el.hidden = now < Number(el.dataset.until);
  };
  const tickTrack = now => {
    for (const bar of document.querySelectorAll(".track-bar[data-lit]")) {
      const share = (now / 1000 - Number(bar.dataset.lit)) / (Number(bar.dataset.stopHours) * 3600);
      bar.setAttribute("width", (Math.min(1, Math.max(0, share)) * 100).toFixed(2) + "%");
      bar.classList.toggle("track-over", share > 1);
    }
  };
  const tick = () => {
    const now = window.rimwardNow();
    tickClock(now); tickSince(now); tickDue(now); tickReached(now); tickTrack(now);
    document.dispatchEvent(new CustomEvent("rimward:tick", { detail: now }));
  };
  tick();
  setInterval(tick, 1000);
  document.addEventListener("visibilitychange", () => { if (!document.hidden) tick(); });
  document.addEventListener("rimward:drawn", tick);
  window.addEventListener("pageshow", tick);
})();
