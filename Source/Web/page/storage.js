// What stays in the browser between visits. Where a browser keeps nothing (private windows, some pages from files), the page works
// without it and says so once.

const key = 'snarewright',
  version = 1;

/** What was kept, or null. */
export function restore() {
  try {
    const kept = JSON.parse(localStorage.getItem(key));
    return kept?.version === version ? kept : null;
  } catch {
    return null;
  }
}

/** Adds members to what is kept. False if this browser keeps nothing. */
export function store(members) {
  try {
    localStorage.setItem(key, JSON.stringify({ ...restore(), version, ...members }));
    return true;
  } catch {
    return false;
  }
}
