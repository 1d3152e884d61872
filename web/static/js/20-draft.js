// Drafts. What is typed into a form is kept in this browser at every key, and
// comes back after a reload, a crash or a server that was away. A draft is
// dropped once the server says that its token was saved.
(() => {
  const store = {
    get(k) { try { return JSON.parse(localStorage.getItem(k)); } catch (e) { return null; } },
    set(k, v) { try { localStorage.setItem(k, JSON.stringify(v)); return true; } catch (e) { return false; } },
    drop(k) { try { localStorage.removeItem(k); } catch (e) { /* nothing to drop */ } },
    keys() { try { return Object.keys(localStorage).filter(k => k.startsWith("draft:")); } catch (e) { return []; } },
  };
  const sent = (document.body.dataset.sent || "").split(" ").filter(Boolean);
  for (const k of store.keys()) {
    const d = store.get(k);
    if (!d || sent.includes(d.token) || Date.now() - d.at > 14 * 864e5) store.drop(k);
  }

  const skip = el => !el.name || el.type === "hidden" || el.type === "submit" || el.type === "button";
  const valueOf = el => (el.type === "checkbox" || el.type === "radio") ? el.checked : el.value;
  const keyOf = el => (el.type === "checkbox" || el.type === "radio") ? el.name + "=" + el.value : el.name;
  const collect = form => {
    const values = {};
    for (const el of form.elements) if (!skip(el)) values[keyOf(el)] = valueOf(el);
    return values;
  };
  const note = (form, text) => {
    const el = form.querySelector("[data-draft-note]");
    if (el) el.textContent = text;
  };
  const clock = at => new Date(at).toLocaleTimeString("en-GB", { hour: "2-digit", minute: "2-digit", timeZone: document.documentElement.dataset.zone || undefined });
  const tokenOf = form => form.elements.namedItem("token");

  // An empty time of day means now, and now is when typing began: a draft that
  // is sent an hour later still speaks of the moment that was looked at.
  const stamp = (form, typed) => {
    if (!form.hasAttribute("data-stamp")) return;
    const t = form.querySelector("input[type=time]");
    if (!t || t.value || t === typed) return;
    t.value = new Intl.DateTimeFormat("en-GB", { timeZone: document.documentElement.dataset.zone || "UTC", hour: "2-digit", minute: "2-digit", hour12: false }).format(new Date(window.rimwardNow()));
  };

  const put = (form, draft) => {
    for (const el of form.elements) {
      if (skip(el) || el.dataset.fresh !== undefined) continue;
      const v = draft.values[keyOf(el)];
      if (v === undefined) continue;
      if (el.type === "checkbox" || el.type === "radio") el.checked = v; else el.value = v;
    }
    const t = tokenOf(form);
    if (t) t.value = draft.token;
    note(form, "draft from " + clock(draft.at) + " brought back");
    form.dispatchEvent(new CustomEvent("rimward:restored", { bubbles: true }));
  };

  const restore = async (form, key, first) => {
    const draft = store.get(key);
    if (!draft || JSON.stringify(draft.values) === JSON.stringify(first)) return;
    try {
      const r = await fetch("/receipts/" + encodeURIComponent(draft.token), { headers: { Accept: "text/plain" } });
      if (r.status === 200) { store.drop(key); return; }
    } catch (e) { /* the server is away: the draft is still worth having */ }
    put(form, draft);
  };

  for (const form of document.querySelectorAll("form[data-draft]")) {
    if (!form.dataset.draft) continue;
    const key = "draft:" + form.dataset.draft;
    const first = collect(form);
    const keep = () => {
      const t = tokenOf(form);
      const at = Date.now();
      const ok = store.set(key, { values: collect(form), token: t ? t.value : "", at });
      note(form, ok ? "draft kept " + clock(at) : "this browser keeps no drafts");
    };
    form.addEventListener("input", e => { stamp(form, e.target); keep(); });
    form.addEventListener("change", keep);
    if (form.dataset.retried !== undefined) keep(); else restore(form, key, first);
    let going = false;
    form.addEventListener("submit", e => {
      if (going) { e.preventDefault(); return; }
      going = true;
      setTimeout(() => { going = false; }, 8000);
    });
    window.addEventListener("pageshow", () => { going = false; });
  }
})();
