// The drill's sound, made live: its pitch falls under load, its roughness grows with the material.

const BASE_HZ = 180;            // pitch of the unloaded motor at its usual speed
const LOAD_FALL = 0.25;         // f = f0 (1 - 0.25 load)
const FOLLOW_S = 0.04;          // how quickly the sound follows the numbers

export function makeSound() {
  let audio = null;
  let parts = null;
  let muted = false;
  let last = {motor: 0, load: 0, roughness: 0, irrigation: false};

  const noise = context => {
    const buffer = context.createBuffer(1, context.sampleRate, context.sampleRate);
    const samples = buffer.getChannelData(0);
    let seed = 1;
    for (let i = 0; i < samples.length; ++i) {
      seed = (seed * 16807) % 2147483647;
      samples[i] = seed / 1073741823.5 - 1;
    }
    const source = context.createBufferSource();
    source.buffer = buffer;
    source.loop = true;
    source.start();
    return source;
  };

  const build = () => {
    const master = audio.createGain();
    master.gain.value = 0;
    master.connect(audio.destination);

    const whine = audio.createOscillator();
    whine.type = 'sawtooth';
    const overtone = audio.createOscillator();
    overtone.type = 'triangle';
    const whineGain = audio.createGain();
    whineGain.gain.value = 0;
    const soften = audio.createBiquadFilter();
    soften.type = 'lowpass';
    soften.frequency.value = 1800;
    whine.connect(whineGain);
    overtone.connect(whineGain);
    whineGain.connect(soften).connect(master);
    whine.start();
    overtone.start();

    const rough = noise(audio);
    const roughBand = audio.createBiquadFilter();
    roughBand.type = 'bandpass';
    const roughGain = audio.createGain();
    roughGain.gain.value = 0;
    rough.connect(roughBand).connect(roughGain).connect(master);

    const hiss = noise(audio);
    const hissBand = audio.createBiquadFilter();
    hissBand.type = 'highpass';
    hissBand.frequency.value = 4000;
    const hissGain = audio.createGain();
    hissGain.gain.value = 0;
    hiss.connect(hissBand).connect(hissGain).connect(master);
    return {master, whine, overtone, whineGain, roughBand, roughGain, hissGain};
  };

  const apply = () => {
    if (!parts) return;
    const now = audio.currentTime;
    const ease = (parameter, value) => parameter.setTargetAtTime(value, now, FOLLOW_S);
    const pitch = Math.max(20, BASE_HZ * last.motor * (1 - LOAD_FALL * last.load));
    const turning = last.motor > 0.02 ? 1 : 0;
    ease(parts.master.gain, muted ? 0 : 0.5);
    ease(parts.whine.frequency, pitch);
    ease(parts.overtone.frequency, pitch * 3.02);
    ease(parts.whineGain.gain, turning * (0.05 + 0.03 * last.load));
    ease(parts.roughBand.frequency, 500 + 1500 * last.roughness);
    ease(parts.roughGain.gain, turning * last.load * (0.1 + 0.5 * last.roughness));
    ease(parts.hissGain.gain, last.irrigation ? 0.03 : 0);
    // A silent graph still costs time: rest while nothing sounds.
    const silent = muted || (!turning && !last.irrigation);
    if (silent && audio.state === 'running') {
      setTimeout(() => { if (isSilent() && audio.state === 'running') audio.suspend(); }, 400);
    } else if (!silent && audio.state === 'suspended') {
      audio.resume();
    }
  };
  const isSilent = () => muted || (last.motor <= 0.02 && !last.irrigation);

  return {
    // Browsers let sound start only in answer to a press or a key.
    unlock: () => {
      if (parts || !window.AudioContext) return;
      audio = new AudioContext();
      parts = build();
      apply();
    },
    set: (isMuted, motor, load, roughness, irrigation) => {
      muted = isMuted;
      last = {motor, load, roughness, irrigation};
      apply();
    },
    load: () => last,
    pause: isHidden => {
      if (!audio) return;
      if (isHidden) audio.suspend();
      else apply();
    },
    stop: () => audio?.close(),
  };
}
