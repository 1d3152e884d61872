// Marking a photo. Without this each click is a request of its own; with it the
// page stays where it is, arrows move a cross, and a glass under the finger
// shows what it covers. The server draws and reckons.
(() => {
  const root = document.querySelector("[data-measure]");
  if (!root) return;
  document.documentElement.classList.add("gauge-ready");
  const spot = () => root.querySelector("[data-measure-spot]");
  const real = () => Number(spot().dataset.real);
  let busy = false, cursor = null, glass = null, held = null;

  const show = () => { const k = root.querySelector("[data-measure-keys]"); if (k) k.hidden = false; };
  const scale = () => real() / spot().getBoundingClientRect().width;
  const inside = p => {
    const r = spot().getBoundingClientRect(), s = scale();
    return { x: Math.min(Math.max(p.x, 0), real()), y: Math.min(Math.max(p.y, 0), r.height * s) };
  };
  const placeOf = e => {
    const r = spot().getBoundingClientRect(), s = scale();
    return inside({ x: (e.clientX - r.left) * s, y: (e.clientY - r.top) * s });
  };

  // cross draws the moving cross in the overlay.
  const cross = () => {
    const over = root.querySelector(".gauge-over");
    over.querySelectorAll("[data-cursor]").forEach(e => e.remove());
    if (!cursor) return;
    const a = 14 * scale(), g = 4 * scale(), { x, y } = cursor;
    for (const name of ["gauge-halo", "gauge-cursor"]) {
      const path = document.createElementNS("http://www.w3.org/2000/svg", "path");
      path.setAttribute("class", name);
      path.setAttribute("data-cursor", "");
      path.setAttribute("d", `M${x - a} ${y}H${x - g}M${x + g} ${y}H${x + a}M${x} ${y - a}V${y - g}M${x} ${y + g}V${y + a}`);
      over.append(path);
    }
  };

  // middle brings a place of the picture, as shares of its sides, to the middle.
  const middle = at => {
    const f = root.querySelector("[data-measure-frame]");
    f.scrollLeft = at.x * f.scrollWidth - f.clientWidth / 2;
    f.scrollTop = at.y * f.scrollHeight - f.clientHeight / 2;
  };

  // go asks the server for the page at an address and puts its desk and its
  // figures in the place of these.
  const go = async url => {
    if (busy) return;
    busy = true;
    try {
      const r = await fetch(url, { headers: { Accept: "text/html" } });
      const doc = new DOMParser().parseFromString(await r.text(), "text/html");
      const fresh = doc.querySelector("[data-measure]");
      if (!fresh) { location.href = url; return; }
      const frame = root.querySelector("[data-measure-frame]");
      const at = { x: (frame.scrollLeft + frame.clientWidth / 2) / frame.scrollWidth, y: (frame.scrollTop + frame.clientHeight / 2) / frame.scrollHeight };
      const focus = document.activeElement, wasSpot = focus === spot(), label = focus && root.contains(focus) ? focus.textContent.trim() : "";
      // The picture stays, so that nothing flickers and no press is cut off.
      const old = spot(), next = fresh.querySelector("[data-measure-spot]");
      const same = old.getAttribute("width") === next.getAttribute("width");
      if (same) { old.alt = next.alt; next.replaceWith(old); }
      root.replaceChildren(...fresh.childNodes);
      middle(at);
      if (wasSpot) spot().focus({ preventScroll: true });
      else if (label) { const twin = [...root.querySelectorAll("a,button,summary")].find(e => e.textContent.trim() === label); (twin || spot()).focus({ preventScroll: true }); }
      if (r.ok) history.replaceState(null, "", r.url);
      show(); cross();
    } catch (e) {
      location.href = url;
    } finally { busy = false; }
  };

  const add = p => {
    const form = root.querySelector("[data-measure-form]");
    const q = new URLSearchParams(new FormData(form));
    q.set("x", p.x.toFixed(1)); q.set("y", p.y.toFixed(1));
    return go(form.getAttribute("action") + "?" + q);
  };

  root.addEventListener("click", e => {
    const link = e.target.closest("[data-measure-go]");
    if (link && !e.ctrlKey && !e.metaKey && !e.shiftKey) { e.preventDefault(); go(link.href); return; }
    if (e.target !== spot()) return;
    e.preventDefault();
    // A click that no pointer made is Enter or a screen reader's press.
    if (e.detail === 0 && e.pointerType !== "mouse" && e.pointerType !== "touch") { if (cursor) add(cursor); return; }
    if (held) return;
    cursor = null;
    add(placeOf(e));
  });
  root.addEventListener("submit", e => { if (e.target.matches("[data-measure-form]")) e.preventDefault(); });

  const steps = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
  root.addEventListener("keydown", e => {
    if (e.target !== spot()) return;
    if (steps[e.key]) {
      e.preventDefault();
      const far = e.shiftKey ? 20 : 1, [dx, dy] = steps[e.key];
      const r = spot().getBoundingClientRect();
      cursor = cursor || { x: Math.round(real() / 2), y: Math.round(r.height * scale() / 2) };
      cursor = inside({ x: cursor.x + dx * far, y: cursor.y + dy * far });
      cross();
    } else if (e.key === "Backspace" || e.key === "Delete") {
      e.preventDefault();
      const undo = root.querySelector("[data-measure-undo]");
      if (undo) go(undo.href);
    } else if (e.key === "Escape") { cursor = null; cross(); }
  });
  root.addEventListener("focusin", e => {
    if (e.target !== spot() || cursor || !e.target.matches(":focus-visible")) return;
    cursor = { x: Math.round(real() / 2), y: Math.round(spot().getBoundingClientRect().height * scale() / 2) };
    cross();
  });

  // The glass: three times as large, above the finger. Once it is drawn the
  // place moves a third as far as the finger does.
  const look = (p, e) => {
    if (!glass) { glass = document.createElement("div"); glass.className = "gauge-glass"; document.body.append(glass); }
    const r = spot().getBoundingClientRect(), s = scale(), size = glass.offsetWidth, k = 3;
    glass.style.backgroundImage = `url("${spot().src}")`;
    glass.style.backgroundSize = `${r.width * k}px ${r.height * k}px`;
    glass.style.backgroundPosition = `${size / 2 - 2 - p.x / s * k}px ${size / 2 - 2 - p.y / s * k}px`;
    const up = e.clientY - size - 36;
    glass.style.left = Math.min(Math.max(e.clientX - size / 2, 4), innerWidth - size - 4) + "px";
    glass.style.top = (up > 4 ? up : e.clientY + 44) + "px";
  };
  const away = () => { if (glass) glass.remove(); glass = null; };
  const glassy = e => e.target === spot() && e.pointerType !== "mouse" && !!spot().closest(".gauge-fits");
  root.addEventListener("pointerdown", e => {
    if (!glassy(e) || !e.isPrimary) { held = null; away(); return; }
    held = { id: e.pointerId, from: { x: e.clientX, y: e.clientY }, place: placeOf(e) };
    try { spot().setPointerCapture(e.pointerId); } catch (err) { /* it went already */ }
    cursor = held.place; cross(); look(cursor, e);
  });
  root.addEventListener("pointermove", e => {
    if (!held || e.pointerId !== held.id) return;
    const s = scale() / 3;
    cursor = inside({ x: held.place.x + (e.clientX - held.from.x) * s, y: held.place.y + (e.clientY - held.from.y) * s });
    cross(); look(cursor, e);
  });
  const drop = e => {
    if (!held || e.pointerId !== held.id) return;
    away();
    const p = cursor;
    if (e.type === "pointerup" && p) add(p);
    cursor = null; cross();
    setTimeout(() => { held = null; }, 50); // after the click that follows a touch
  };
  root.addEventListener("pointerup", drop);
  root.addEventListener("pointercancel", drop);
  root.addEventListener("contextmenu", e => { if (held) e.preventDefault(); });
  show();
  middle({ x: 0.5, y: 0.5 });
})();
