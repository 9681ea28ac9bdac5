import styles from './desk.module.css';

/** Why a lock was not taken; null where nothing was refused. */
export function Refusal({ say }: { readonly say: string | null }) {
  return (
    <div role="alert" className={styles.refusal}>
      {say !== null && <p className={styles.bad}>Not taken: {say}</p>}
    </div>
  );
}
