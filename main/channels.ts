/** The two channels between window and main process. */
export const CALL_CHANNEL = 'nightload:call';
export const EVENT_CHANNEL = 'nightload:event';
