// Finished attempts and the journal of the running one, in the browser's own database.

import {inOrder} from './files.js';

const DATABASE = 'driftbench';
const SETTINGS = 'driftbench-';
const SETTING_NAMES = ['codename', 'theme', 'mute'];

const result = request => new Promise((resolve, reject) => {
  request.onsuccess = () => resolve(request.result);
  request.onerror = () => reject(request.error);
});

const done = transaction => new Promise((resolve, reject) => {
  transaction.oncomplete = () => resolve();
  transaction.onabort = transaction.onerror = () => reject(transaction.error);
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

  // Runs `work`; a failure becomes one sentence in the program and nothing else.
  const attempt = async (what, work) => {
    if (!database) return;
    try {
      await work();
    } catch (failure) {
      call.storageFailed(`The browser could not ${what} (${failure?.message || failure?.name}). ` +
        'Export what you want to keep.');
    }
  };

  // The journal in use is locked, so that another tab does not offer it as broken off.
  let releaseLock = null;
  let heldHere = '';
  const lockName = id => `driftbench-${id}`;
  const letGo = () => {
    releaseLock?.();
    releaseLock = null;
    heldHere = '';
  };
  const hold = id => {
    letGo();
    heldHere = lockName(id);
    navigator.locks?.request(heldHere, () => new Promise(release => { releaseLock = release; }));
  };
  const heldElsewhere = async () => {
    const state = await navigator.locks?.query();
    return new Set((state?.held || []).map(lock => lock.name).filter(name => name !== heldHere));
  };

  const pieceNumber = new Map();

  const sendIndex = () => attempt('read the saved attempts', async () => {
    const all = await result(database.transaction('attempts').objectStore('attempts').getAll());
    all.sort((a, b) => a.stored - b.stored);
    call.index(`[${all.map(record => record.summary).join(',')}]`);
  });

  const sendUnfinished = () => attempt('read the unfinished attempt', async () => {
    const journals = await result(database.transaction('journals').objectStore('journals').getAll());
    const held = await heldElsewhere();
    const free = journals.filter(journal => !held.has(lockName(journal.id)));
    free.sort((a, b) => b.stored - a.stored);
    if (free.length > 0) call.journalFound(free[0]);
  });

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
      await sendIndex();
      await sendUnfinished();
    },

    storeAttempt: (id, summary, text) => {
      letGo();
      return attempt('save the attempt', async () => {
        const transaction = database.transaction(['attempts', 'journals', 'pieces'], 'readwrite');
        const attempts = transaction.objectStore('attempts');
        const before = await result(attempts.get(id));
        attempts.put({id, summary, text, stored: before?.stored ?? Date.now()});
        transaction.objectStore('journals').delete(id);
        transaction.objectStore('pieces').delete(piecesOf(id));
        await done(transaction);
        await sendIndex();
      });
    },

    deleteAttempt: id => attempt('delete the attempt', async () => {
      const transaction = database.transaction('attempts', 'readwrite');
      transaction.objectStore('attempts').delete(id);
      await done(transaction);
      await sendIndex();
    }),

    deleteAll: () => attempt('delete the attempts', async () => {
      const transaction = database.transaction('attempts', 'readwrite');
      transaction.objectStore('attempts').clear();
      await done(transaction);
      await sendIndex();
    }),

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
      let text = '';
      await attempt('read the saved attempts', async () => {
        const all = await result(database.transaction('attempts').objectStore('attempts').getAll());
        all.sort((a, b) => a.stored - b.stored);
        text = JSON.stringify({format: 'driftbench-logbook', version: 1, attempts: all.map(record => {
          const {when, finished_days} = JSON.parse(record.summary);
          return {when, finished_days: finished_days ?? record.stored / 86400000, attempt: record.text};
        })}, null, 1);
      });
      return text;
    },

    loadAttempt: id => attempt('read the saved attempt', async () => {
      const record = await result(database.transaction('attempts').objectStore('attempts').get(id));
      if (!record) throw new Error('it is no longer there');
      call.attempt(id, record.text);
    }),

    beginJournal: (id, title, head) => {
      hold(id);
      pieceNumber.set(id, 0);
      const when = new Date();
      const two = number => String(number).padStart(2, '0');
      return attempt('keep the running attempt', () => {
        const transaction = database.transaction(['journals', 'pieces'], 'readwrite');
        transaction.objectStore('pieces').delete(piecesOf(id));
        transaction.objectStore('journals').put({id, title, head, step: 0, stored: when.getTime(),
          when: `${when.getFullYear()}-${two(when.getMonth() + 1)}-${two(when.getDate())} ` +
            `${two(when.getHours())}:${two(when.getMinutes())}`});
        return done(transaction);
      });
    },

    appendJournal: (id, step, rows) => attempt('keep the running attempt', async () => {
      const number = pieceNumber.get(id) ?? 0;
      pieceNumber.set(id, number + 1);
      const transaction = database.transaction(['journals', 'pieces'], 'readwrite');
      const journals = transaction.objectStore('journals');
      const request = journals.get(id);
      request.onsuccess = () => {
        if (!request.result) return;
        journals.put({...request.result, step});
        transaction.objectStore('pieces').put({id, number, rows});
      };
      await done(transaction);
    }),

    dropJournal: async id => {
      letGo();
      await remove(id);
      await sendUnfinished();
    },

    loadJournal: id => attempt('read the unfinished attempt', async () => {
      const transaction = database.transaction(['journals', 'pieces']);
      const journal = result(transaction.objectStore('journals').get(id));
      const pieces = result(transaction.objectStore('pieces').getAll(piecesOf(id)));
      const [head, list] = [await journal, await pieces];
      if (!head) throw new Error('it is no longer there');
      hold(id);
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
