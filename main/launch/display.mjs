import { connect } from "node:net";
import { join } from "node:path";

/** Whether something accepts a connection there, within two seconds. */
function accepts(where) {
  return new Promise((resolve) => {
    const socket = connect(where);
    const end = (answer) => {
      clearTimeout(timer);
      socket.destroy();
      resolve(answer);
    };
    const timer = setTimeout(() => end(false), 2000);
    socket.once("connect", () => end(true));
    socket.once("error", () => end(false));
  });
}

/** Where an X display is reached: a socket of this machine, or a port of another. */
function placeOfX(display) {
  const [, host, number] = /^(.*):(\d+)(?:\.\d+)?$/.exec(display) ?? [];
  if (number === undefined) return null;
  const local = host === "" || host === "unix";
  return local ? { path: `/tmp/.X11-unix/X${number}` } : { host, port: 6000 + Number(number) };
}

/**
 * Whether a window can be shown. On Linux a set variable proves nothing: the display's socket must accept a connection.
 *
 * @returns {Promise<string | null>} why not, in words; null when it can
 */
export async function whyNoDisplay(platform = process.platform, env = process.env) {
  if (platform !== "linux") return null;
  const { DISPLAY: x, WAYLAND_DISPLAY: wayland, XDG_RUNTIME_DIR: runtime } = env;
  if (wayland) {
    const path = wayland.startsWith("/") ? wayland : runtime ? join(runtime, wayland) : null;
    if (path !== null && (await accepts({ path }))) return null;
  }
  if (x) {
    const place = placeOfX(x);
    if (place !== null && (await accepts(place))) return null;
  }
  return x || wayland ? `the display ${x || wayland} does not answer` : "there is no display";
}
