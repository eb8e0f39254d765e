// Addresses of the app. Pure.

/** The address of the app with its parameters; empty values are left out. */
export function appAddress(base, parameters, hash = '') {
  const words = new URLSearchParams(Object.entries(parameters).filter(([, value]) => value !== '' && value !== undefined)).toString();
  return `${base}${words ? `?${words}` : ''}${hash}`;
}
