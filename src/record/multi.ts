import type { ChainableCommander } from 'ioredis';

/** Runs a transaction and throws the first error in it; gives the replies in order. */
export async function execute(transaction: ChainableCommander): Promise<unknown[]> {
  const replies = await transaction.exec();
  if (replies === null) throw new Error('The transaction was given up: a watched key changed');
  return replies.map(([error, reply]) => {
    if (error) throw error;
    return reply;
  });
}
