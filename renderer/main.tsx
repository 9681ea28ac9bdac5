import './look/tokens.css';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { App, carriedApi, createStores } from './app';

const stores = createStores(carriedApi());
createRoot(document.getElementById('root') as HTMLElement).render(
  <StrictMode>
    <App stores={stores} />
  </StrictMode>,
);
