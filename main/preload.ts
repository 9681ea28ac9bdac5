import { contextBridge, type IpcRendererEvent, ipcRenderer } from 'electron';
import type { Api, EventName } from '../core/contract';
import { CALL_CHANNEL, EVENT_CHANNEL } from './channels';

/** All that the window's page gets of the program: the contract, as `window.nightload`. */
const api: Api = {
  call: (name, sent) => ipcRenderer.invoke(CALL_CHANNEL, name, sent),
  on: (name, hear) => {
    const listener = (_: IpcRendererEvent, event: EventName, data: Parameters<typeof hear>[0]): void => {
      if (event === name) hear(data);
    };
    ipcRenderer.on(EVENT_CHANNEL, listener);
    return () => {
      ipcRenderer.off(EVENT_CHANNEL, listener);
    };
  },
};

contextBridge.exposeInMainWorld('nightload', api);
