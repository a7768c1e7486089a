declare module "virtual:words/en" {
  const sentences: Readonly<Record<string, string>>;
  export default sentences;
}
declare module "virtual:words/de" {
  const sentences: Readonly<Record<string, string>>;
  export default sentences;
}
