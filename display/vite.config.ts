import { env } from "node:process";
import { defineConfig } from "vitest/config";

/** In development the pages come from Vite and everything else from a running shop. */
const shop = env["SHOP"] ?? "http://127.0.0.1:8080";

export default defineConfig({
  build: {
    target: "es2022",
    // Fonts stay files: the service's content security policy allows none from inside a style sheet.
    assetsInlineLimit: 0,
    chunkSizeWarningLimit: 300,
  },
  server: {
    proxy: {
      "/api": { target: shop, changeOrigin: true },
      "/cards": { target: shop, changeOrigin: true },
      "/socket.io": { target: shop, ws: true, changeOrigin: true },
    },
  },
  test: { include: ["test/**/*.test.ts"], environment: "node" },
});
