/** A style sheet is taken in for what it does; nothing is read out of it. */
declare module '*.css';
