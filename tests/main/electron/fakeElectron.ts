import { EventEmitter } from "node:events";
import type { IpcRenderer } from "electron";
import type { ElectronParts } from "../../../main/electron/parts.ts";

type InvokeHandler = (event: unknown, ...args: unknown[]) => Promise<unknown>;

/** A frame as the shell sees it: only its address matters, and whether it is the window's main one. */
export interface FakeFrame {
  url: string;
}

export class FakeWebContents extends EventEmitter {
  static made = 0;
  readonly id = ++FakeWebContents.made;
  readonly mainFrame: FakeFrame = { url: "about:blank" };
  openHandler: ((details: { url: string }) => { action: string }) | null = null;
  /** The page's side of the channel to this window. */
  readonly page = new EventEmitter();

  setWindowOpenHandler(handler: (details: { url: string }) => { action: string }): void {
    this.openHandler = handler;
  }

  send(channel: string, message: unknown): void {
    this.page.emit(channel, {}, structuredClone(message));
  }
}

/** Stands in for a window. It is shown, closed and sent somewhere by the tests. */
export class FakeWindow extends EventEmitter {
  static open: FakeWindow[] = [];
  readonly webContents = new FakeWebContents();
  readonly options: Record<string, unknown>;
  shown = false;
  focused = 0;
  minimized = false;

  constructor(options: Record<string, unknown>) {
    super();
    this.options = options;
    FakeWindow.open.push(this);
  }

  static getAllWindows(): FakeWindow[] {
    return [...FakeWindow.open];
  }

  async loadURL(url: string): Promise<void> {
    this.webContents.mainFrame.url = url;
    this.emit("ready-to-show");
  }

  show(): void {
    this.shown = true;
  }

  focus(): void {
    this.focused++;
  }

  isMinimized(): boolean {
    return this.minimized;
  }

  restore(): void {
    this.minimized = false;
  }

  isDestroyed(): boolean {
    return !FakeWindow.open.includes(this);
  }

  close(): void {
    FakeWindow.open = FakeWindow.open.filter((window) => window !== this);
    this.emit("closed");
  }
}

/** What the user does in the next dialogs; null turns away. */
export interface FakeAnswers {
  open: string | null;
  save: string | null;
  folder: string | null;
  leave: boolean;
}

export interface FakeElectron {
  readonly parts: ElectronParts;
  readonly app: EventEmitter & { quits: number; sandboxed: boolean; handedOver: unknown };
  readonly answers: FakeAnswers;
  /** Names that the save dialog proposed. */
  readonly proposed: string[];
  readonly windows: () => readonly FakeWindow[];
  readonly request: (url: string, method?: string) => Promise<Response>;
  readonly schemes: { scheme: string; privileges: Record<string, boolean> }[];
  readonly permissions: { request: ((...args: unknown[]) => void) | null; check: (() => boolean) | null };
  readonly menus: unknown[];
  /** The page's end of the call channel in a window, sending as `frame` (its main frame unless given). */
  readonly renderer: (window: FakeWindow, frame?: FakeFrame | null) => Pick<IpcRenderer, "invoke" | "on">;
}

/** A stand-in for Electron: enough of it that the shell runs, with everything it was told kept to look at. */
export function fakeElectron({ second = false } = {}): FakeElectron {
  FakeWindow.open = [];
  const handlers = new Map<string, InvokeHandler>();
  const answers: FakeAnswers = { open: null, save: null, folder: null, leave: false };
  const proposed: string[] = [];
  const schemes: FakeElectron["schemes"] = [];
  const permissions: FakeElectron["permissions"] = { request: null, check: null };
  const menus: unknown[] = [];
  let serve: ((request: Request) => Response | Promise<Response>) | null = null;

  const app = Object.assign(new EventEmitter(), {
    quits: 0,
    sandboxed: false,
    handedOver: null as unknown,
    requestSingleInstanceLock: (data: unknown): boolean => {
      app.handedOver = data;
      return !second;
    },
    quit: (): void => {
      app.quits++;
    },
    enableSandbox: (): void => {
      app.sandboxed = true;
    },
    whenReady: async (): Promise<void> => undefined,
  });
  const chosen = (path: string | null) => ({ canceled: path === null, filePaths: path === null ? [] : [path] });
  const parts = {
    app,
    BrowserWindow: FakeWindow,
    dialog: {
      showOpenDialog: async (_: unknown, { properties }: { properties: string[] }) =>
        chosen(properties.includes("openDirectory") ? answers.folder : answers.open),
      showSaveDialog: async (_: unknown, { defaultPath }: { defaultPath: string }) => {
        proposed.push(defaultPath);
        return { canceled: answers.save === null, filePath: answers.save ?? "" };
      },
      showMessageBoxSync: () => (answers.leave ? 0 : 1),
    },
    ipcMain: { handle: (channel: string, handler: InvokeHandler) => handlers.set(channel, handler) },
    Menu: {
      setApplicationMenu: (menu: unknown) => menus.push(menu),
      buildFromTemplate: (template: unknown) => template,
    },
    protocol: {
      registerSchemesAsPrivileged: (list: FakeElectron["schemes"]) => schemes.push(...list),
      handle: (_: string, handler: typeof serve) => {
        serve = handler;
      },
    },
    session: {
      defaultSession: {
        setPermissionRequestHandler: (handler: (...args: unknown[]) => void) => {
          permissions.request = handler;
        },
        setPermissionCheckHandler: (handler: () => boolean) => {
          permissions.check = handler;
        },
        setDevicePermissionHandler: () => undefined,
      },
    },
  };
  const renderer: FakeElectron["renderer"] = (window, frame = window.webContents.mainFrame) =>
    ({
      invoke: async (channel: string, ...args: unknown[]) => {
        const handler = handlers.get(channel);
        if (handler === undefined) throw new Error(`No handler registered for '${channel}'`);
        const event = { sender: window.webContents, senderFrame: frame };
        return structuredClone(await handler(event, ...structuredClone(args)));
      },
      on: (channel: string, listener: (...args: unknown[]) => void) => window.webContents.page.on(channel, listener),
    }) as unknown as Pick<IpcRenderer, "invoke" | "on">;
  return {
    parts: parts as unknown as ElectronParts,
    app,
    answers,
    proposed,
    windows: () => FakeWindow.open,
    request: async (url, method = "GET") => {
      if (serve === null) throw new Error("no page is served");
      return serve(new Request(url, { method }));
    },
    schemes,
    permissions,
    menus,
    renderer,
  };
}
