// Fetches what a closed part of the page holds when it is opened for the first
// time. Without this the link inside leads to the same.
(() => {
  const fill = async part => {
    const from = part.dataset.inner;
    if (!from || part.dataset.got) return;
    part.dataset.got = "1";
    const box = document.createElement("div");
    try {
      const r = await fetch(from);
      if (!r.ok) throw new Error(r.status);
      box.innerHTML = await r.text();
      part.append(box);
    } catch (e) {
      delete part.dataset.got;
      part.open = false;
    }
  };
  document.addEventListener("toggle", e => {
    if (e.target.open && e.target.dataset && e.target.dataset.inner) fill(e.target);
  }, true);
})();
