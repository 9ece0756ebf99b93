import { contextBridge, ipcRenderer } from "electron";
import { bridgeOver } from "./bridge.ts";

contextBridge.exposeInMainWorld("lapwright", bridgeOver(ipcRenderer));
