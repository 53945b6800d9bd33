// What is said between the server and a client that looks for files on its behalf: where the workspace is not on this
// machine's disk, and where the client knows which folders a person has put aside. Types only.

/**
 * A request of the server with a `FindFilesRequest`, answered by a `FindFilesReply`. Sent only if the client said
 * `findsFiles` when it started the server.
 */
export type FindFilesMethod = 'foretick/findFiles';

export interface FindFilesRequest {
  /** URI of a folder. */
  readonly folder: string;
  /** Extensions of the files wanted, without the dot. */
  readonly extensions: readonly string[];
  /** No more than this many are of use. */
  readonly most: number;
}

export interface FindFilesReply {
  /** URIs of files in the folder and below, in any order. */
  readonly files: readonly string[];
  /** Whether there are more. */
  readonly isCut: boolean;
}
