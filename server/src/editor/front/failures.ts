// What went wrong with a question, in the protocol's numbers (3.17, ErrorCodes and LSPErrorCodes).

import { ErrorCodes, LSPErrorCodes, ResponseError } from 'vscode-languageserver/node';
import type { LinkAnswer } from './back-link';

type Failure = Extract<LinkAnswer, { readonly kind: 'failed' }>;

export function errorOf({ reason, words }: Failure): ResponseError<unknown> {
  switch (reason) {
    case 'superseded':
      return new ResponseError(LSPErrorCodes.ContentModified, words);
    case 'unavailable':
    case 'refused':
      return new ResponseError(LSPErrorCodes.RequestFailed, words);
    case 'unknown':
      return new ResponseError(ErrorCodes.InvalidParams, words);
    case 'broken':
      return new ResponseError(ErrorCodes.InternalError, words);
  }
}

/** Of a request for diagnostics: what newer text cut short is to be asked for again. */
export function diagnosticErrorOf(failure: Failure): ResponseError<unknown> {
  if (failure.reason !== 'superseded' && failure.reason !== 'unavailable') return errorOf(failure);
  return new ResponseError(LSPErrorCodes.ServerCancelled, failure.words, { retriggerRequest: true });
}

export function cancelled(): ResponseError<unknown> {
  return new ResponseError(LSPErrorCodes.RequestCancelled, 'cancelled');
}

/** A request before `initialize` or after `shutdown`. */
export function notServing({ wasShutDown }: { readonly wasShutDown: boolean }): ResponseError<unknown> {
  if (wasShutDown) return new ResponseError(ErrorCodes.InvalidRequest, 'the server was shut down');
  return new ResponseError(ErrorCodes.ServerNotInitialized, 'the server is not initialized');
}
