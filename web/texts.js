// Texts and files into the program's memory.

// Calls `use(addresses, sizes)` with the UTF-8 bytes of each text, freed afterwards.
export function withTexts(module, texts, use) {
  const sizes = texts.map(text => module.lengthBytesUTF8(text));
  const addresses = texts.map((text, i) => {
    const address = module._malloc(sizes[i] + 1);
    module.stringToUTF8(text, address, sizes[i] + 1);
    return address;
  });
  try {
    return use(addresses, sizes);
  } finally {
    addresses.forEach(address => module._free(address));
  }
}

// Calls `use(name, bytes, size)` with a file's name and content, freed afterwards.
export function withFile(module, name, bytes, use) {
  return withTexts(module, [name], ([file]) => {
    const address = module._malloc(bytes.length || 1);
    module.HEAPU8.set(bytes, address);
    try {
      return use(file, address, bytes.length);
    } finally {
      module._free(address);
    }
  });
}
