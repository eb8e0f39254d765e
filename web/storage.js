// Finished attempts and the journal of the running one, in the browser's own database.

import {inOrder} from './files.js';

const DATABASE = 'driftbench';
const SETTINGS = 'driftbench-';
const SETTING_NAMES = ['codename', 'theme', 'mute', 'hand', 'steps'];
const RUNNING = 'keep the running attempt';

export const result = request => new Promise((resolve, reject) => {
  request.onsuccess = () => resolve(request.result);
  request.onerror = () => reject(request.error);
});

// All its requests are made: it ends without waiting for this page, which may be busy drawing.
const done = transaction => new Promise((resolve, reject) => {
  transaction.oncomplete = () => resolve();
  transaction.onabort = transaction.onerror = () => reject(transaction.error);
  transaction.commit?.();
});

function openDatabase() {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(DATABASE, 2);
    request.onupgradeneeded = ({oldVersion}) => {
      const database = request.result;
      if (oldVersion < 1) {
        database.createObjectStore('attempts', {keyPath: 'id'});
        database.createObjectStore('journals', {keyPath: 'id'});
        database.createObjectStore('pieces', {keyPath: ['id', 'number']});
      }
      database.createObjectStore('files', {keyPath: 'name'});
    };
    request.onsuccess = () => {
      request.result.onversionchange = () => request.result.close();
      resolve(request.result);
    };
    request.onerror = () => reject(request.error);
    request.onblocked = () => reject(new Error('another tab holds an older version open'));
  });
}

const piecesOf = id => IDBKeyRange.bound([id, 0], [id, Number.MAX_SAFE_INTEGER]);

/** A try-out (`isTrial`) keeps nothing. */
export async function openStorage(call, isTrial) {
  let database = null;
  let trouble = '';
  try {
    if (!isTrial) database = await openDatabase();
  } catch (failure) {
    trouble = failure?.message || 'no reason given';
  }

  // Runs `work`; a failure becomes one sentence in the program and nothing else. True: it went well.
  const failing = new Set();
  const attempt = async (what, work) => {
    if (!database) return false;
    try {
      await work();
      failing.delete(what);
      return true;
    } catch (failure) {
      // Tried again every second: said once.
      if (what === RUNNING && failing.has(what)) return false;
      failing.add(what);
      const why = failure?.name === 'QuotaExceededError' ? 'its storage is full' : failure?.message || failure?.name;
      call.storageFailed(`The browser could not ${what} (${why}). Export what you want to keep.`);
      return false;
    }
  };

  // The journal in use is locked, so that another tab neither offers it as broken off nor goes on with it.
  let releaseLock = null;
  let heldHere = '';
  const lockName = id => `driftbench-${id}`;
  const letGo = () => {
    releaseLock?.();
    releaseLock = null;
    heldHere = '';
  };
  // False: another tab has it.
  const hold = id => new Promise(resolve => {
    if (heldHere === lockName(id)) return resolve(true);
    letGo();
    heldHere = lockName(id);
    const locks = navigator.locks?.request(heldHere, {ifAvailable: true}, lock => {
      resolve(Boolean(lock));
      if (lock) return new Promise(release => { releaseLock = release; });
      heldHere = '';
    });
    if (locks) locks.catch(() => resolve(true));
    else resolve(true);
  });
  const heldElsewhere = async () => {
    const state = await navigator.locks?.query().catch(() => null);
    return new Set((state?.held || []).map(lock => lock.name).filter(name => name !== heldHere));
  };
  const isHeldElsewhere = async id => (await heldElsewhere()).has(lockName(id));

  const pieceNumber = new Map();
  const heads = new Map();  // what stands in `journals` for those that this page adds to
  const storedAt = new Map();
  const unkept = new Map();  // finished attempts that the browser did not take; they are here until the page closes

  // All finished attempts, oldest first.
  const finished = async () => {
    const kept = database ? await result(database.transaction('attempts').objectStore('attempts').getAll()) : [];
    for (const {id, stored} of kept) storedAt.set(id, stored);
    return [...kept, ...unkept.values()].sort((a, b) => a.stored - b.stored);
  };

  const sendIndex = () => attempt('read the saved attempts', async () =>
    call.index(`[${(await finished()).map(record => record.summary).join(',')}]`));

  let isOffered = false;
  const sendUnfinished = () => attempt('read the unfinished attempt', async () => {
    const journals = await result(database.transaction('journals').objectStore('journals').getAll());
    const held = await heldElsewhere();
    const free = journals.filter(journal => !held.has(lockName(journal.id)));
    free.sort((a, b) => b.stored - a.stored);
    if (free.length > 0 || isOffered) call.journalFound(free[0] ?? {id: '', title: '', when: '', step: 0});
    isOffered = free.length > 0;
  });

  // Several tabs see the same shelf.
  let others = null;
  try {
    if (database) others = new BroadcastChannel('driftbench');
  } catch { /* each tab for itself */ }
  const tellOthers = () => others?.postMessage('changed');
  const listen = () => {
    if (others) {
      others.onmessage = async () => {
        await sendIndex();
        await sendUnfinished();
      };
    }
  };
  const sayItGoesOn = () => {
    call.storageFailed('This attempt is going on in another tab.');
    return sendUnfinished();
  };

  const remove = id => attempt('remove the unfinished attempt', () => {
    const transaction = database.transaction(['journals', 'pieces'], 'readwrite');
    transaction.objectStore('journals').delete(id);
    transaction.objectStore('pieces').delete(piecesOf(id));
    return done(transaction);
  });

  return {
    // First words to the program, once it listens.
    report: async () => {
      if (isTrial) return;
      if (!database) {
        call.storageFailed(`This browser does not let the page keep data (${trouble}). ` +
          'Everything works, but attempts are lost when the page closes unless you export them.');
        return;
      }
      listen();
      await sendIndex();
      await sendUnfinished();
    },

    /** The attempt that runs in this page; empty: none. */
    running: () => heldHere.slice(lockName('').length),

    storeAttempt: async (id, summary, text) => {
      const record = {id, summary, text, stored: storedAt.get(id) ?? Date.now()};
      unkept.set(id, record);
      heads.delete(id);
      const isKept = await attempt('save the attempt', () => {
        const transaction = database.transaction(['attempts', 'journals', 'pieces'], 'readwrite');
        transaction.objectStore('attempts').put(record);
        transaction.objectStore('journals').delete(id);
        transaction.objectStore('pieces').delete(piecesOf(id));
        return done(transaction);
      });
      if (isKept) unkept.delete(id);
      if (heldHere === lockName(id)) letGo();
      await sendIndex();
      tellOthers();
    },

    deleteAttempt: id => {
      unkept.delete(id);
      return attempt('delete the attempt', async () => {
        const transaction = database.transaction('attempts', 'readwrite');
        transaction.objectStore('attempts').delete(id);
        await done(transaction);
        await sendIndex();
        tellOthers();
      });
    },

    deleteAll: () => {
      unkept.clear();
      return attempt('delete the attempts', async () => {
        const transaction = database.transaction('attempts', 'readwrite');
        transaction.objectStore('attempts').clear();
        await done(transaction);
        await sendIndex();
        tellOthers();
      });
    },

    // Opened lessons, sets, kits and pieces of jaw, [{name, text}], in the order in which the program takes them.
    // The program does not listen yet: what cannot be read is left out.
    keptFiles: async () => {
      try {
        return inOrder(await result(database.transaction('files').objectStore('files').getAll()));
      } catch {
        return [];
      }
    },

    keepFile: (name, text) => attempt('keep the opened file', () => {
      const transaction = database.transaction('files', 'readwrite');
      transaction.objectStore('files').put({name, text});
      return done(transaction);
    }),

    forgetFiles: names => attempt('delete the opened files', () => {
      const transaction = database.transaction('files', 'readwrite');
      names.forEach(name => transaction.objectStore('files').delete(name));
      return done(transaction);
    }),

    // All kept attempts as one text; each record stays the text that was kept.
    logbook: async () => {
      let all = [...unkept.values()];
      await attempt('read the saved attempts', async () => { all = await finished(); });
      return all.length === 0 ? '' : JSON.stringify({format: 'driftbench-logbook', version: 1, attempts: all.map(record => {
        const {when, finished_days} = JSON.parse(record.summary);
        return {when, finished_days: finished_days ?? record.stored / 86400000, attempt: record.text};
      })}, null, 1);
    },

    loadAttempt: id => unkept.has(id) ? call.attempt(id, unkept.get(id).text) : attempt('read the saved attempt', async () => {
      const record = await result(database.transaction('attempts').objectStore('attempts').get(id));
      if (!record) throw new Error('it is no longer there');
      call.attempt(id, record.text);
    }),

    beginJournal: (id, title, head) => {
      hold(id);
      pieceNumber.set(id, 0);
      const when = new Date();
      const two = number => String(number).padStart(2, '0');
      const journal = {id, title, head, step: 0, stored: when.getTime(),
        when: `${when.getFullYear()}-${two(when.getMonth() + 1)}-${two(when.getDate())} ` +
          `${two(when.getHours())}:${two(when.getMinutes())}`};
      heads.set(id, journal);
      return attempt(RUNNING, () => {
        const transaction = database.transaction(['journals', 'pieces'], 'readwrite');
        transaction.objectStore('pieces').delete(piecesOf(id));
        transaction.objectStore('journals').put(journal);
        return done(transaction);
      });
    },

    appendJournal: (id, step, rows) => heads.has(id) && attempt(RUNNING, () => {
      const number = pieceNumber.get(id) ?? 0;
      pieceNumber.set(id, number + 1);
      const transaction = database.transaction(['journals', 'pieces'], 'readwrite');
      transaction.objectStore('journals').put({...heads.get(id), step});
      transaction.objectStore('pieces').put({id, number, rows});
      return done(transaction);
    }),

    dropJournal: async id => {
      if (await isHeldElsewhere(id)) return sayItGoesOn();
      if (heldHere === lockName(id)) letGo();
      heads.delete(id);
      await remove(id);
      await sendUnfinished();
      tellOthers();
    },

    loadJournal: id => attempt('read the unfinished attempt', async () => {
      if (!await hold(id)) return sayItGoesOn();
      const transaction = database.transaction(['journals', 'pieces']);
      const journal = result(transaction.objectStore('journals').get(id));
      const pieces = result(transaction.objectStore('pieces').getAll(piecesOf(id)));
      const [head, list] = [await journal, await pieces];
      if (!head) {
        letGo();
        throw new Error('it is no longer there');
      }
      tellOthers();
      heads.set(id, head);
      pieceNumber.set(id, list.length > 0 ? list[list.length - 1].number + 1 : 0);
      const rows = new Int32Array(list.reduce((sum, piece) => sum + piece.rows.length, 0));
      let at = 0;
      for (const piece of list) {
        rows.set(piece.rows, at);
        at += piece.rows.length;
      }
      call.journal(id, head.head, head.step, rows);
    }),

    remember: (name, value) => {
      if (isTrial) return;
      try { localStorage.setItem(SETTINGS + name, value); } catch { /* kept for this visit only */ }
    },

    settings: () => {
      const found = {};
      try {
        for (const name of SETTING_NAMES) {
          const value = localStorage.getItem(SETTINGS + name);
          if (value !== null) found[name] = value;
        }
      } catch { /* no storage: the usual values */ }
      return found;
    },
  };
}
