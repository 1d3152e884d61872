// A bell and a browser notification when a check falls due: off until asked
// for, and kept on this device.
(() => {
  const box = document.querySelector("[data-bell]");
  if (!box) return;
  box.hidden = false;
  const get = k => { try { return localStorage.getItem(k) === "1"; } catch (e) { return false; } };
  const set = (k, v) => { try { localStorage.setItem(k, v ? "1" : "0"); } catch (e) { /* this device forgets */ } };
  const sound = box.querySelector("[data-bell-sound]");
  const notify = box.querySelector("[data-bell-notify]");
  const said = box.querySelector("[data-bell-said]");
  let audio;
  const ring = () => {
    try {
      audio = audio || new AudioContext();
      audio.resume();
      [0, .35].forEach(after => {
        const o = audio.createOscillator(), g = audio.createGain(), t = audio.currentTime + after;
        o.frequency.value = 660;
        g.gain.setValueAtTime(.0001, t);
        g.gain.exponentialRampToValueAtTime(.25, t + .02);
        g.gain.exponentialRampToValueAtTime(.0001, t + 1.2);
        o.connect(g).connect(audio.destination);
        o.start(t); o.stop(t + 1.3);
      });
    } catch (e) { said.textContent = "This browser makes no sound."; }
  };
  sound.checked = get("bell:sound");
  notify.checked = get("bell:notify") && "Notification" in window && Notification.permission === "granted";
  sound.addEventListener("change", () => { set("bell:sound", sound.checked); if (sound.checked) ring(); });
  notify.addEventListener("change", async () => {
    if (notify.checked && !("Notification" in window)) { notify.checked = false; said.textContent = "This browser has no notifications."; return; }
    if (notify.checked && await Notification.requestPermission() !== "granted") {
      notify.checked = false;
      said.textContent = "The browser refused. Its settings for this page can allow it.";
    }
    set("bell:notify", notify.checked);
  });
  const rung = new Set();
  document.addEventListener("rimward:tick", e => {
    for (const el of document.querySelectorAll("[data-ring]")) {
      const at = Number(el.dataset.ring), key = el.dataset.ringKey + at;
      if (rung.has(key)) continue;
      if (e.detail < at) continue;
      rung.add(key);
      if (e.detail - at > 60000) continue; // it was due before this page was opened
      if (sound.checked) ring();
      if (notify.checked) new Notification(el.dataset.ringText, { tag: key });
    }
  });
})();
